import { z } from 'zod';
import {
  ContentIdSchema,
  count,
  fields,
  OpaqueIdSchema,
  quantity,
  text,
  VersionsSchema,
} from '../../fields.ts';
import { defineKind } from '../define-kind.ts';

/** An action at the bench: `do` says which, the rest depends on it and is read by the bench. */
const ActionSchema = z.object({ do: text(40) }).catchall(z.json());

/** Something the trainee says is wrong, and what they would do about it. */
const ClaimSchema = fields({
  part: text(40),
  fault: ContentIdSchema,
  remedy: text(300).optional(),
});

/** A number written down before anything was tried, and how many things had been done by then. */
const SaidSchema = fields({
  id: ContentIdSchema,
  value: quantity(-1_000_000, 1_000_000),
  after: count(0, 5000),
});

/**
 * What a trainee did, never what was concluded from it: the grade is worked out again from this
 * whenever it is shown.
 */
export const attemptSubmitted = defineKind({
  kind: 'attempt.submitted',
  versions: [
    { name: 'as first written' },
    {
      name: 'with numbers said beforehand',
      // before this, no task asked for any
      migrate: (older) => ({ ...(older as object), said: [] }),
    },
  ],
  body: fields({
    attempt: OpaqueIdSchema,
    actions: z
      .array(ActionSchema, { error: 'must list the actions done' })
      .max(5000, { error: 'must list at most 5000 actions' }),
    claims: z
      .array(ClaimSchema, { error: 'must list the faults claimed' })
      .max(200, { error: 'must list at most 200 faults' }),
    said: z
      .array(SaidSchema, { error: 'must list the numbers said beforehand' })
      .max(8, { error: 'must list at most 8 numbers said beforehand' }),
    versions: VersionsSchema,
  }),
  agrees: ({ about, by }) =>
    about === by ? null : { path: ['about'], message: 'must be the trainee who submitted' },
});
