import { z } from 'zod';
import { ConditionSchema } from './condition-schema.ts';
import { choice, group, sentence, slug, yesNo } from './fields.ts';

/** How a figure was seen. `memory` never decides; `practice` only in a set that is itself practice. */
export const SEEN = ['primary', 'secondary', 'memory', 'practice'] as const;

/** `in` is for figures published in inches; they are compared in mm. */
export const PUBLISHED_UNITS = [
  'mm',
  'in',
  'm/s',
  'deg',
  's',
  'lx',
  'dB(A)',
  'dB(C)',
  '%',
  'mg/m3',
  'years',
  'count',
  '1',
  'yes/no',
  'word',
] as const;

const year = z
  .number({ error: 'must be a year' })
  .int({ error: 'must be a year' })
  .min(1800, { error: 'must be a year from 1800 to 2100' })
  .max(2100, { error: 'must be a year from 1800 to 2100' });

const DocumentSchema = group({
  title: sentence(200),
  /** left out when the document carries none, as many web pages */
  year: year.optional(),
});

const SourceSchema = group({
  /** its key among the documents of the set */
  document: slug(),
  /** clause, regulation or heading; left out when the document has none */
  clause: sentence(120).optional(),
  seen: choice(SEEN),
});

const figure = z.union([z.number(), z.string()], {
  error: 'must be a number or the name of a measure or field',
});
const figures = z.array(figure, { error: 'must be a list' }).min(2, {
  error: 'must list at least two figures',
});

/** An end of a limit: a figure, a measure or field of the bench, or the smaller or larger of some. */
const EndSchema = z.union([figure, group({ smallerOf: figures }), group({ largerOf: figures })], {
  error: 'must be a number, a measure or field, or smallerOf / largerOf a list of them',
});

export const LimitSchema = group({
  /** starts with the id of its set: gb.knife.gap */
  id: z
    .string({ error: 'must be text' })
    .regex(/^[a-z0-9-]+(\.[a-zA-Z0-9]+)+$/, { error: 'must be words joined by dots' }),
  title: sentence(120),
  /** a measure, or a field of the bench file where no measure exists: guard.fingers */
  measure: z.string({ error: 'must be the name of a measure or bench field' }),
  min: EndSchema.optional(),
  /** whether the least itself is allowed: "at least" (true) or "more than" (false) */
  minInclusive: yesNo().default(true),
  max: EndSchema.optional(),
  /** whether the greatest itself is allowed: "at most" (true) or "less than" (false) */
  maxInclusive: yesNo().default(true),
  /** instead of min and max: what it must be */
  is: z.boolean({ error: 'must be true or false' }).optional(),
  /** instead of min and max: the words allowed */
  oneOf: z.array(z.string(), { error: 'must be a list of words' }).min(1).optional(),
  /** instead of min and max: whether a part (knife, guard, people.pushStick) must be there */
  fitted: yesNo().optional(),
  /** unit of the figures as published */
  unit: choice(PUBLISHED_UNITS),
  /** in force only when this holds; always when left out */
  when: ConditionSchema.optional(),
  /** where within the limit is best; when left out nothing inside is better than the rest */
  aim: choice(['low', 'middle', 'high']).optional(),
  /** the band closeness is counted over, when another limit of the set sets its other end */
  scale: z
    .tuple([z.number(), z.number()], { error: 'must list two numbers: [least, greatest]' })
    .optional(),
  grade: choice(['must', 'should']).default('must'),
  /** failing it alone stops the work */
  critical: yesNo().default(false),
  source: SourceSchema,
  /** what a reader should know about the figure: a datum we chose, a condition we read into it */
  note: sentence(400).optional(),
});

/**
 * Another figure for a limit of the set this one extends. What it does not name stays as it is
 * there; measure, condition and kind of limit always do.
 */
const ChangeSchema = group({
  /** id of the limit in the set extended: gb.knife.gap */
  limit: z.string({ error: 'must name a limit of the set extended' }),
  title: sentence(120).optional(),
  min: z.number({ error: 'must be a number' }).optional(),
  minInclusive: yesNo().optional(),
  max: z.number({ error: 'must be a number' }).optional(),
  maxInclusive: yesNo().optional(),
  oneOf: z.array(z.string(), { error: 'must be a list of words' }).min(1).optional(),
  /** unit of the figures here; that of the limit changed when left out */
  unit: choice(PUBLISHED_UNITS).optional(),
  grade: choice(['must', 'should']).optional(),
  critical: yesNo().optional(),
  source: SourceSchema,
  note: sentence(400).optional(),
});

export type LimitFile = z.infer<typeof LimitSchema>;
export type ChangeFile = z.infer<typeof ChangeSchema>;
export type LimitEndFile = z.infer<typeof EndSchema>;
export type PublishedUnit = (typeof PUBLISHED_UNITS)[number];
export type Seen = (typeof SEEN)[number];

export const LimitSetShape = group({
  schema: z.literal('limits/1', { error: 'must be "limits/1"' }),
  id: slug(),
  /** raised with every change of a figure, so that a stored score can name it */
  version: z.int({ error: 'must be a whole number from 1' }).min(1, {
    error: 'must be a whole number from 1',
  }),
  title: sentence(120),
  /** which texts, of what date, it restates */
  edition: sentence(300),
  /** what it is not, in words a trainee understands */
  caution: sentence(600),
  /** `practice`: figures without a published source decide here, and are marked so */
  basis: choice(['published', 'practice', 'own']),
  documents: z.record(slug(), DocumentSchema, { error: 'must be a group of documents' }),
  /** a set whose limits hold here too, but for what `changes` says of them */
  extends: slug().optional(),
  changes: z.array(ChangeSchema, { error: 'must be a list of changes' }).default([]),
  /** may be empty only where another set is extended */
  limits: z.array(LimitSchema, { error: 'must be a list of limits' }).default([]),
});

export type LimitSetFile = z.infer<typeof LimitSetShape>;
