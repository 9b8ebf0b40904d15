import { z } from 'zod';
import { describeProblem, type Problem } from '../../bench/index.ts';
import { group, text, whole } from './fields.ts';

/** How a fault is come by: from where one stands, close up, by hand, measured, read, or watched for. */
export const SENSES = ['sight', 'close', 'hand', 'measure', 'marks', 'watch'] as const;
export type Sense = (typeof SENSES)[number];

const chance = whole(5, 95);
const shift = whole(-40, 40);

/**
 * How hard each thing is, as per cent of people at the end of their training who get it right. A
 * stated prior: nobody has counted it. What is counted in attempts is shown beside it, and once there
 * is enough of that the trainer changes these figures.
 */
export const EstimateSchema = group({
  schema: z.literal('estimate/1', { error: 'must be "estimate/1"' }),
  version: whole(1, 10_000),
  basis: text(400),
  find: group({
    /** by how it is come by */
    sense: group({
      sight: chance,
      close: chance,
      hand: chance,
      measure: chance,
      marks: chance,
      watch: chance,
    }),
    /** points more or less where a setting stands just past its limit, and far past it */
    near: shift,
    far: shift,
    /** points more or less for single faults, by id */
    faults: z.record(z.string(), shift, { error: 'must be a group of fault ids' }),
    /** per cent who know what to do about a fault they found */
    remedy: chance,
    /** per cent who take something that is in order for a fault */
    lookAlike: chance,
  }),
  /** per cent who bring a setting within its limit */
  set: chance,
  /** per cent who choose right for one part of a plan */
  plan: chance,
  limit: group({
    /** per cent who give a figure, and who sort readings */
    figure: chance,
    within: chance,
    /** points less where the figure is published in inches or hangs on the bench */
    inches: shift,
    hangs: shift,
  }),
});

export type Estimate = z.infer<typeof EstimateSchema>;

export type ReadEstimate =
  | { readonly ok: true; readonly estimate: Estimate }
  | { readonly ok: false; readonly error: Problem };

/** The estimates from a parsed file, or the first problem with them. Never throws. */
export function readEstimate(value: unknown): ReadEstimate {
  const parsed = EstimateSchema.safeParse(value);
  if (parsed.success) return { ok: true, estimate: parsed.data };
  return { ok: false, error: describeProblem(parsed.error, 'The estimates') };
}
