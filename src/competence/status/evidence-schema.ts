import { z } from 'zod';
import { type Evidence, ONE_PRACTICAL } from './evidence.ts';

export { ONE_PRACTICAL };

/** A whole number from `min` to `max`. */
const count = (min: number, max: number) => {
  const must = `must be a whole number from ${min} to ${max}`;
  return z.int({ error: must }).min(min, { error: must }).max(max, { error: must });
};

const HOURS = 'must be a number of hours from 0.5 to 200';

/** Messages finish the sentence "FIELD ...". See `Evidence` for what each field means. */
export const EvidenceSchema = z
  .strictObject({
    since: count(1, 10_000).default(ONE_PRACTICAL.since),
    practicals: count(1, 10).default(ONE_PRACTICAL.practicals),
    days: count(1, 10).default(ONE_PRACTICAL.days),
    practice: z
      .strictObject({
        sessions: count(1, 50),
        hours: z.number({ error: HOURS }).min(0.5, { error: HOURS }).max(200, { error: HOURS }),
      })
      .nullable()
      .default(null),
    screen: z
      .array(
        z.string().regex(/^[a-z0-9]+(-[a-z0-9]+)*$/, {
          error: 'must be the id of a lesson or a test, lower-case words joined by hyphens',
        }),
        { error: 'must be a list' },
      )
      .max(12, { error: 'must list at most 12 lessons and tests' })
      .default([]),
  })
  .refine(({ days, practicals }) => days <= practicals, {
    path: ['days'],
    error: 'must not be more than practicals: each is watched on one day',
  }) satisfies z.ZodType<Evidence>;
