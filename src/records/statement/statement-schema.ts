import { z } from 'zod';
import { MEASURES } from '../../bench/index.ts';
import { meaningOf } from '../check/index.ts';
import {
  ContentIdSchema,
  count,
  DateSchema,
  DigestSchema,
  fields,
  NameHashSchema,
  OpaqueIdSchema,
  oneOf,
  quantity,
  text,
  UuidSchema,
  WorkSchema,
} from '../fields.ts';

/** One thing watched for, with what was seen. */
export const CriterionSchema = fields({
  id: ContentIdSchema,
  /** as the trainer read it when signing */
  text: text(300),
  result: oneOf('yes', 'no', 'not-seen'),
  /** about the work; not about the person's health or private life, since it cannot be erased */
  note: text(500).optional(),
});

/** One setting measured at the machine, judged against one published limit. */
export const SettingSchema = fields({
  /** id of a measure of the bench, such as knife.gapAtTable */
  measure: z
    .string({ error: 'must name a measure of the bench' })
    .refine((id) => Object.hasOwn(MEASURES, id), { error: 'must name a measure of the bench' }),
  /** in `unit`, as read off the instrument */
  value: quantity(-100_000, 1_000_000),
  unit: oneOf('mm', 'inch', 'deg', 's', 'm/s', 'lx'),
  /** what it was measured with: a value without an instrument is a guess */
  instrument: text(80),
  /** in `unit`, expanded uncertainty of that instrument, from 0 */
  uncertainty: quantity(0, 1000),
  /** id of the limit it was judged by */
  limit: ContentIdSchema,
  verdict: oneOf('within', 'outside', 'too-close', 'not-applicable', 'advice'),
  /** in `unit`, to the nearest end of the limit, positive inside; null where there is none */
  margin: quantity(-1_000_000, 1_000_000).nullable(),
  /** document, clause and year of the limit */
  source: text(300),
});

const shape = {
  schema: z.literal('statement/1', { error: 'must be "statement/1"' }),
  /** id of this sign-off: signed with the rest, so the statement cannot be entered twice */
  signoff: UuidSchema,
  org: OpaqueIdSchema,
  /** who was watched. The name itself stands outside the log, joined by the hash */
  who: fields({ person: OpaqueIdSchema, nameHash: NameHashSchema }),
  /** who watched and signs */
  trainer: fields({
    person: OpaqueIdSchema,
    nameHash: NameHashSchema,
    role: z.literal('trainer', { error: 'must be "trainer"' }),
  }),
  unit: fields({ id: ContentIdSchema, version: text(40), title: text(120) }),
  bench: fields({
    id: OpaqueIdSchema,
    /** mark on the machine, such as AL-01 */
    asset: text(40),
    /** sort of machine, such as hand-fed circular saw bench */
    class: text(80),
    guardKind: oneOf('fixed', 'self-closing', 'counterweighted', 'suspended', 'none'),
  }),
  work: WorkSchema,
  material: text(120),
  /** mm and teeth, of the blade that was on the machine */
  blade: fields({
    diameter: quantity(50, 2000, 'mm'),
    kerf: quantity(0.3, 20, 'mm'),
    plate: quantity(0.3, 20, 'mm'),
    teeth: count(2, 400),
  }),
  observedAt: DateSchema,
  place: text(120),
  criteria: z
    .array(CriterionSchema, { error: 'must list the criteria watched for' })
    .min(1, { error: 'must list at least one criterion' })
    .max(60, { error: 'must list at most 60 criteria' }),
  settings: z
    .array(SettingSchema, { error: 'must list the settings measured' })
    .max(60, { error: 'must list at most 60 settings' }),
  /** the limit set in force, and the version or hash of its text */
  limits: fields({ set: ContentIdSchema, version: text(80) }),
  /** what the sign-off is bound to, such as "softwood up to 50 mm"; may be empty */
  conditions: z
    .array(text(200), { error: 'must be a list of sentences, which may be empty' })
    .max(12, { error: 'must list at most 12 conditions' }),
  decision: oneOf('signed-off', 'not-yet'),
  /** both dates on a sign-off, neither on a "not yet" */
  validFrom: DateSchema.nullable(),
  validUntil: DateSchema.nullable(),
  /** what the signature means: `meaningOf` the rest */
  meaning: text(1500),
};

/** A picture taken at the machine. It lies outside the log; what is signed is its digest. */
export const PhotoSchema = fields({
  /** SHA-256 of the file, in hexadecimal */
  digest: DigestSchema,
  /** the criterion it shows; null for the machine as a whole */
  criterion: ContentIdSchema.nullable(),
});

const secondShape = {
  ...shape,
  schema: z.literal('statement/2', { error: 'must be "statement/2"' }),
  /** the practical at the machine of which this is one unit: the same on every unit signed from it */
  practical: UuidSchema,
  photos: z
    .array(PhotoSchema, { error: 'must list the photos taken, which may be none' })
    .max(24, { error: 'must list at most 24 photos' }),
  /** what the person watched said to the result, on the trainer's device */
  acknowledged: fields({
    answer: oneOf('agrees', 'disagrees', 'not-asked'),
    /** in their own words, about the work or the machine */
    words: text(500).nullable(),
  }),
  /** where the trainer signed in afresh for it: on the site, or on the device while there was no network */
  confirmed: oneOf('site', 'device'),
};

type FirstFields = z.infer<ReturnType<typeof fields<typeof shape>>>;
type SecondFields = z.infer<ReturnType<typeof fields<typeof secondShape>>>;
type Fields = FirstFields | SecondFields;
type Complain = (path: readonly PropertyKey[], message: string) => void;

function checkDates(statement: Fields, complain: Complain): void {
  const { decision, observedAt, validFrom, validUntil } = statement;
  if (decision === 'not-yet') {
    if (validFrom !== null) complain(['validFrom'], 'must be empty when the decision is not-yet');
    if (validUntil !== null) complain(['validUntil'], 'must be empty when the decision is not-yet');
    return;
  }
  if (validFrom === null) complain(['validFrom'], 'must be given on a sign-off');
  else if (validFrom < observedAt) {
    complain(['validFrom'], `must not be before the day of the practical, ${observedAt}`);
  }
  if (validUntil === null) complain(['validUntil'], 'must be given on a sign-off');
  else if (validFrom !== null && validUntil < validFrom) {
    complain(['validUntil'], `must not be before validFrom, ${validFrom}`);
  }
}

/** A sign-off that its own results speak against is not one. */
function checkDecision(statement: Fields, complain: Complain): void {
  if (statement.decision !== 'signed-off') return;
  const unmet = statement.criteria.find((criterion) => criterion.result !== 'yes');
  if (unmet !== undefined) {
    const was = unmet.result === 'no' ? 'not met' : 'not seen';
    complain(['decision'], `must be not-yet, because criterion ${unmet.id} was ${was}`);
  }
  const outside = statement.settings.find((setting) => setting.verdict === 'outside');
  if (outside !== undefined) {
    complain(
      ['decision'],
      `must be not-yet, because ${outside.measure} is outside ${outside.limit}`,
    );
  }
}

function checkOnce(ids: readonly string[], field: string, complain: Complain): void {
  const twice = ids.findIndex((id, index) => ids.indexOf(id) !== index);
  if (twice !== -1) complain([field, twice], `must not list ${ids[twice]} twice`);
}

/**
 * What a trainer signs after watching a practical at the machine: who, what, where, on which
 * machine, with which results, until when, and what the signature means. Expectations set by
 * 21 CFR Part 11 (11.50, 11.70) and eIDAS article 26 are used as a bar, not claimed.
 */
export const StatementSchema = z
  .discriminatedUnion('schema', [fields(shape), fields(secondShape)], {
    error: 'must be "statement/1" or "statement/2"',
  })
  .superRefine((statement, context) => {
    const complain: Complain = (path, message) =>
      context.addIssue({ code: 'custom', path: [...path], message });
    if (statement.trainer.person === statement.who.person) {
      complain(
        ['trainer', 'person'],
        'must not be the person watched: nobody signs for themselves',
      );
    }
    if (statement.blade.plate > statement.blade.kerf) {
      complain(['blade', 'plate'], `must not be thicker than the kerf, ${statement.blade.kerf} mm`);
    }
    checkDates(statement, complain);
    checkDecision(statement, complain);
    checkOnce(
      statement.criteria.map((one) => one.id),
      'criteria',
      complain,
    );
    checkOnce(
      statement.settings.map((one) => one.limit),
      'settings',
      complain,
    );
    if (statement.schema === 'statement/2') {
      checkOnce(
        statement.photos.map(({ digest }) => digest),
        'photos',
        complain,
      );
      if (statement.acknowledged.answer === 'disagrees' && statement.acknowledged.words === null) {
        complain(['acknowledged', 'words'], 'must say why the person disagrees');
      }
    }
    if (statement.meaning !== meaningOf(statement)) {
      complain(['meaning'], 'must be the sentence that the other fields make');
    }
  });

/** A statement in either form. The first is never migrated: its bytes are what was signed. */
export type Statement = Fields;
export type StatementNow = SecondFields;
export type Criterion = Statement['criteria'][number];
export type Setting = Statement['settings'][number];
