import { z } from 'zod';

export const text = (most: number) => {
  const must = `must be text of 1 to ${most} characters`;
  return z.string({ error: must }).min(1, { error: must }).max(most, { error: must });
};

export const slug = z
  .string({ error: 'must be a short name' })
  .regex(/^[a-z0-9-]{1,60}$/, { error: 'must be small letters, digits and hyphens, at most 60' });

const FIELD = /^[a-z][A-Za-z]*(\.[a-z][A-Za-z]*)*$/;
const changed = z.union([z.number(), z.string().max(60), z.boolean(), z.null()], {
  error: 'must be a number, a word, true, false or null',
});

/** One number to write down before anything is tried. */
export const PredictionSchema = z.strictObject(
  {
    id: slug,
    /** the question, in one or two sentences */
    ask: text(300),
    /** a measure, a field of the bench, a working, or a sum of them */
    of: text(120),
    /** fields of the bench to set before it is worked out */
    change: z
      .record(z.string().regex(FIELD), changed, {
        error: 'must name fields of the bench, such as job.fed, with the value of each',
      })
      .exactOptional(),
    /** how far off still counts as right, in the unit of the answer */
    within: z
      .number({ error: 'must be a number above 0, at most 100000' })
      .gt(0, { error: 'must be a number above 0, at most 100000' })
      .max(100_000, { error: 'must be a number above 0, at most 100000' }),
  },
  {
    error: (issue) =>
      issue.code === 'unrecognized_keys'
        ? `has no field named ${issue.keys.join(', ')}`
        : 'must be a group of fields: id, ask, of, within',
  },
);

export type Prediction = z.infer<typeof PredictionSchema>;
