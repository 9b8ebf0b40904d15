import { z } from 'zod';
import {
  describeProblem,
  INSTRUMENT_IDS,
  type InstrumentId,
  isMeasureId,
  type MeasureId,
  type Problem,
} from '../bench/index.ts';
import { EvidenceSchema, ONE_PRACTICAL } from './status/evidence-schema.ts';
import { WORK_KINDS } from './work.ts';

/** Messages finish the sentence "FIELD ...". */
const sentence = (most: number) => {
  const must = `must be text of 1 to ${most} characters`;
  return z.string({ error: must }).trim().min(1, { error: must }).max(most, { error: must });
};

const slug = () => {
  const must = 'must be lower-case words joined by hyphens, at most 60 characters';
  return z
    .string({ error: must })
    .regex(/^[a-z0-9]+(-[a-z0-9]+)*$/, { error: must })
    .max(60, {
      error: must,
    });
};

const workList = () =>
  z
    .array(z.enum(WORK_KINDS, { error: `must be one of: ${WORK_KINDS.join(', ')}` }), {
      error: 'must be a list of kinds of work',
    })
    .min(1, { error: 'must name at least one kind of work' });

/** One thing a trainer can see or hear at the machine and answer yes or no. */
const CriterionSchema = z.strictObject({
  id: slug(),
  text: sentence(240),
  /** only for these kinds of work; every kind of the unit when left out */
  work: workList().optional(),
});

/**
 * What a reading is worth as a measure of the bench.
 * `reading`: the reading itself. `reading-less-plate`: less the blade plate. `kerf-less-reading`: the
 * kerf less the reading.
 */
const GivesSchema = z.strictObject({
  measure: z.custom<MeasureId>((value) => typeof value === 'string' && isMeasureId(value), {
    error: 'must be the id of a bench measure, such as knife.gapMax',
  }),
  from: z
    .enum(['reading', 'reading-less-plate', 'kerf-less-reading'], {
      error: 'must be one of: reading, reading-less-plate, kerf-less-reading',
    })
    .default('reading'),
});

/** A length the trainer measures at the machine and writes down. */
const SettingSchema = z
  .strictObject({
    id: slug(),
    /** what to measure, as one would say it across the bench */
    ask: sentence(120),
    /** how to take it, so that two trainers read the same figure */
    how: sentence(240).optional(),
    gives: z.array(GivesSchema, { error: 'must be a list' }).min(1, {
      error: 'must give at least one measure',
    }),
    /** mm, readings allowed: wide enough for a bench set badly, narrow enough to catch a slip */
    range: z.tuple([z.number(), z.number()], {
      error: 'must list two numbers: [least, greatest] in mm',
    }),
    /** ids of instruments fit for it, the best first */
    instruments: z
      .array(
        z.custom<InstrumentId>((value) => INSTRUMENT_IDS.some((id) => id === value), {
          error: `must be one of: ${INSTRUMENT_IDS.join(', ')}`,
        }),
        { error: 'must be a list' },
      )
      .min(1, { error: 'must name at least one instrument' }),
    /** a sign-off needs this reading */
    needed: z.boolean({ error: 'must be true or false' }).default(true),
    work: workList().optional(),
  })
  .refine((setting) => setting.range[0] < setting.range[1], {
    path: ['range'],
    error: 'must list the least reading first',
  });

/** An error so dangerous that seeing it once ends the practical. */
const StopSchema = z.strictObject({ id: slug(), text: sentence(240), work: workList().optional() });

/** A published unit a reader may hold ours against. Ids only: no claim that ours meets it. */
const PublishedUnitSchema = z.strictObject({
  scheme: z.enum(['WCA', 'AU', 'NZ', 'UK'], { error: 'must be one of: WCA, AU, NZ, UK' }),
  id: sentence(40),
  version: sentence(40).optional(),
  /** how much of it was read when it was listed here */
  seen: z.enum(['text', 'title'], { error: 'must be one of: text, title' }),
});

const repeated = (ids: readonly string[]): string | undefined =>
  ids.find((id, index) => ids.indexOf(id) !== index);

/** One unit of the practical, `unit/1`: what a trainer watches for, measures, and stops the work for. */
export const UnitSchema = z
  .strictObject({
    schema: z.literal('unit/1', { error: 'must be "unit/1"' }),
    id: slug(),
    /** place in the course, 1 to 8 */
    number: z.int({ error: 'must be a whole number from 1 to 8' }).min(1).max(8),
    /** raised whenever a criterion changes its meaning; signed records keep the version they used */
    version: z.int({ error: 'must be a whole number from 1' }).min(1),
    title: sentence(80),
    about: sentence(300),
    work: workList(),
    criteria: z
      .array(CriterionSchema, { error: 'must be a list' })
      .min(5, { error: 'must list 5 to 9 criteria' })
      .max(9, { error: 'must list 5 to 9 criteria' }),
    settings: z.array(SettingSchema, { error: 'must be a list' }).default([]),
    stops: z.array(StopSchema, { error: 'must be a list' }).default([]),
    /** what it takes until a person is signed off in this unit; one practical when left out */
    evidence: EvidenceSchema.optional().transform((rule) => rule ?? ONE_PRACTICAL),
    heldAgainst: z.array(PublishedUnitSchema, { error: 'must be a list' }).default([]),
  })
  .superRefine((unit, context) => {
    for (const field of ['criteria', 'settings', 'stops'] as const) {
      const twice = repeated(unit[field].map(({ id }) => id));
      if (twice !== undefined) {
        context.addIssue({
          code: 'custom',
          path: [field],
          message: `must not use the id ${twice} twice`,
        });
      }
    }
  });

export type Unit = z.infer<typeof UnitSchema>;
export type Criterion = Unit['criteria'][number];
export type UnitSetting = Unit['settings'][number];
export type Stop = Unit['stops'][number];

export type ReadUnit =
  | { readonly ok: true; readonly unit: Unit }
  | { readonly ok: false; readonly error: Problem };

/** A unit from a parsed file, or the first problem with it. Never throws. */
export function readUnit(value: unknown): ReadUnit {
  const parsed = UnitSchema.safeParse(value);
  if (parsed.success) return { ok: true, unit: parsed.data };
  return { ok: false, error: describeProblem(parsed.error, 'The unit file') };
}
