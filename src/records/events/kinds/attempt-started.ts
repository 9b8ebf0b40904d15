import { z } from 'zod';
import {
  ContentIdSchema,
  DigestSchema,
  fields,
  OpaqueIdSchema,
  text,
  VersionsSchema,
} from '../../fields.ts';
import { defineKind } from '../define-kind.ts';

/** A trainee was given a bench to work on. `about` is the trainee, who is also `by`. */
export const attemptStarted = defineKind({
  kind: 'attempt.started',
  versions: [{ name: 'as first written' }],
  body: fields({
    attempt: OpaqueIdSchema,
    task: ContentIdSchema,
    /** what the bench was made from: the same seed and versions make the same bench */
    seed: z.union([z.int(), text(120)], { error: 'must be a whole number or a text' }),
    /** SHA-256 of the canonical bench that was given */
    benchHash: DigestSchema,
    versions: VersionsSchema,
  }),
  agrees: ({ about, by }) =>
    about === by ? null : { path: ['about'], message: 'must be the trainee who started' },
});
