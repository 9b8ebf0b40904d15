import { z } from 'zod';
import { cosignMeaningOf } from '../check/meaning.ts';
import {
  DigestSchema,
  fields,
  NameHashSchema,
  OpaqueIdSchema,
  oneOf,
  text,
  UuidSchema,
} from '../fields.ts';

/** What a second trainer signs after reading a signed practical: that they agree, or why they do not. */
export const CosignSchema = fields({
  schema: z.literal('cosign/1', { error: 'must be "cosign/1"' }),
  /** id of this co-signature and of its event */
  id: UuidSchema,
  org: OpaqueIdSchema,
  signoff: UuidSchema,
  /** SHA-256 of the canonical bytes of the statement that was read */
  statementHash: DigestSchema,
  /** title of the unit, as it was read */
  unit: text(120),
  trainer: fields({
    person: OpaqueIdSchema,
    nameHash: NameHashSchema,
    role: z.literal('trainer', { error: 'must be "trainer"' }),
  }),
  answer: oneOf('agrees', 'disagrees'),
  /** about the work or the machine; needed when they do not agree */
  note: text(500).nullable(),
  /** what the signature means: `cosignMeaningOf` the rest */
  meaning: text(600),
}).superRefine((statement, context) => {
  const complain = (field: string, message: string) =>
    context.addIssue({ code: 'custom', path: [field], message });
  if (statement.answer === 'disagrees' && statement.note === null) {
    complain('note', 'must say why, in 1 to 500 characters');
  }
  if (statement.meaning !== cosignMeaningOf(statement)) {
    complain('meaning', 'must be the sentence that the other fields make');
  }
});

export type Cosign = z.infer<typeof CosignSchema>;
