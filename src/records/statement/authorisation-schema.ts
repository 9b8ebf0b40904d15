import { z } from 'zod';
import { authorisationMeaningOf } from '../check/meaning.ts';
import {
  ContentIdSchema,
  DateSchema,
  fields,
  NameHashSchema,
  OpaqueIdSchema,
  oneOf,
  quantity,
  text,
  UuidSchema,
  WorkSchema,
} from '../fields.ts';

/** Leave in writing for one person to do named work on one machine, until a day. */
export const AuthorisationSchema = fields({
  schema: z.literal('authorisation/1', { error: 'must be "authorisation/1"' }),
  /** id of this authorisation and of its event */
  id: UuidSchema,
  org: OpaqueIdSchema,
  /** who may. The name itself stands outside the log, joined by the hash */
  who: fields({ person: OpaqueIdSchema, nameHash: NameHashSchema }),
  /** who gives it, for the employer */
  by: fields({
    person: OpaqueIdSchema,
    nameHash: NameHashSchema,
    role: oneOf('trainer', 'employer'),
  }),
  bench: fields({ id: OpaqueIdSchema, asset: text(40) }),
  work: z
    .array(WorkSchema, { error: 'must list the work it is for' })
    .min(1, { error: 'must list at least one kind of work' })
    .max(6, { error: 'must list at most 6 kinds of work' }),
  from: DateSchema,
  until: DateSchema,
  /** `always`: only while a supervisor is at the bench */
  supervised: oneOf('always', 'as-usual'),
  /** largest stock it is for; null where nothing is said */
  largest: fields({
    thickness: quantity(1, 1000, 'mm').nullable(),
    length: quantity(50, 20_000, 'mm').nullable(),
  }),
  /** further conditions, a sentence each; may be none */
  conditions: z
    .array(text(200), { error: 'must be a list of sentences, which may be empty' })
    .max(12, { error: 'must list at most 12 conditions' }),
  /** the rule on age it was held against, and what was found; the date of birth stays outside */
  age: fields({
    rule: ContentIdSchema,
    answer: oneOf('old-enough', 'young-under-supervision'),
  }),
  /** the sign-offs it rests on */
  basis: z
    .array(UuidSchema, { error: 'must list the sign-offs it rests on' })
    .min(1, { error: 'must list at least one sign-off' })
    .max(60, { error: 'must list at most 60 sign-offs' }),
  /** what it means: `authorisationMeaningOf` the rest */
  meaning: text(1500),
}).superRefine((statement, context) => {
  const complain = (path: readonly string[], message: string) =>
    context.addIssue({ code: 'custom', path: [...path], message });
  const { age, by, from, supervised, until, who, work } = statement;
  if (by.person === who.person) {
    complain(['by', 'person'], 'must not be the person authorised: nobody authorises themselves');
  }
  if (until < from) complain(['until'], `must not be before from, ${from}`);
  if (new Set(work).size !== work.length) complain(['work'], 'must list each kind of work once');
  if (age.answer === 'young-under-supervision' && supervised !== 'always') {
    complain(['supervised'], 'must be always, because of the age of the person');
  }
  if (statement.meaning !== authorisationMeaningOf(statement)) {
    complain(['meaning'], 'must be the sentence that the other fields make');
  }
});

export type Authorisation = z.infer<typeof AuthorisationSchema>;
