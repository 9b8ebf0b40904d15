import { z } from 'zod';
import file from '../../../content/privacy/retention.json' with { type: 'json' };

/** Kinds of period, in the order they are shown. */
export const PERIOD_IDS = [
  'session',
  'sign-in',
  'invitation',
  'calendar',
  'open-sitting',
  'photo',
  'account',
  'with-account',
  'organisation',
  'log',
] as const;
export type PeriodId = (typeof PERIOD_IDS)[number];

const must = 'must be a whole number from 1 to 4000';
const length = z.int({ error: must }).min(1, { error: must }).max(4_000, { error: must });
const PeriodSchema = z.strictObject(
  {
    hours: length.optional(),
    days: length.optional(),
    months: length.optional(),
    /** what it is counted from */
    from: z.string({ error: 'must say what it is counted from' }).min(3),
    reason: z.enum(['own-choice', 'law-differs'], { error: 'must be own-choice or law-differs' }),
    why: z.string({ error: 'must say why' }).min(10, { error: 'must say why' }),
    /** months an organisation may choose from */
    choice: z.strictObject({ least: length, most: length }).optional(),
  },
  { error: 'must hold hours, days or months, from, reason, why and choice, and nothing else' },
);
const FileSchema = z.strictObject({
  about: z.string(),
  periods: z.record(z.enum(PERIOD_IDS), PeriodSchema, {
    error: 'must name every kind of period',
  }),
});

export type Period = z.output<typeof PeriodSchema>;

/** Every period, from content/privacy/retention.json. */
export const PERIODS: Readonly<Record<PeriodId, Period>> = FileSchema.parse(file).periods;

/** What an organisation may choose for itself. */
export const CHOSEN_PERIODS = ['photo', 'account'] as const;
export type ChosenPeriod = (typeof CHOSEN_PERIODS)[number];

/** The months of a period that is counted in months. @throws RangeError for one that is not */
export function usualMonths(id: ChosenPeriod): number {
  const { months } = PERIODS[id];
  if (months === undefined) throw new RangeError(`${id} must be counted in months.`);
  return months;
}

/** The days of a period that is counted in days. @throws RangeError for one that is not */
export function daysOf(id: PeriodId): number {
  const { days } = PERIODS[id];
  if (days === undefined) throw new RangeError(`${id} must be counted in days.`);
  return days;
}

/** The months an organisation may choose from, ends included. */
export const rangeOf = (id: ChosenPeriod): { readonly least: number; readonly most: number } =>
  PERIODS[id].choice ?? { least: usualMonths(id), most: usualMonths(id) };
