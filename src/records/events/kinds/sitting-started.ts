import { z } from 'zod';
import {
  ContentIdSchema,
  count,
  DigestSchema,
  fields,
  OpaqueIdSchema,
  oneOf,
  text,
  VersionsSchema,
} from '../../fields.ts';
import { defineKind } from '../define-kind.ts';

/** Somebody began to sit the form of a blueprint. `about` is that person, who is also `by`. */
export const sittingStarted = defineKind({
  kind: 'sitting.started',
  versions: [{ name: 'as first written' }],
  body: fields({
    attempt: OpaqueIdSchema,
    blueprint: ContentIdSchema,
    blueprintVersion: count(1, 10_000),
    /** what the form was made from: the same seed and versions make the same form */
    seed: text(120),
    /** SHA-256 of the canonical form as it was shown */
    formHash: DigestSchema,
    /** seconds allowed; null where there is no limit of time */
    seconds: z.union([z.null(), count(1, 1_000_000)], {
      error: 'must be null or a whole number from 1 to 1000000',
    }),
    /** how the time was adjusted before the start */
    time: oneOf('as-set', 'half-more', 'twice', 'ten-times', 'off'),
    /** when the result is shown: at once, or when a trainer lets it out */
    feedback: oneOf('now', 'later'),
    /** the setting of this test by a trainer; null where it was chosen by oneself */
    setting: OpaqueIdSchema.nullable(),
    versions: VersionsSchema,
  }),
  agrees: ({ about, by }) =>
    about === by ? null : { path: ['about'], message: 'must be the person who started' },
});
