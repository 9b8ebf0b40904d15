import { z } from 'zod';

const must = { error: 'must be a number from -1000000 to 1000000' };
const many = { error: 'must be a whole number from 0 to 5000' };

/** A number somebody wrote down before trying, in the unit of the answer (lengths in mm). */
export const SaidBeforehandSchema = z.strictObject(
  {
    id: z
      .string({ error: 'must name what was asked' })
      .regex(/^[a-z0-9-]{1,60}$/, { error: 'must name what was asked' }),
    value: z.number(must).min(-1e6, must).max(1e6, must),
    /** how many things had been done at the bench by then */
    after: z.int(many).min(0, many).max(5000, many),
  },
  { error: 'must be a group of fields: id, value, after' },
);

export type SaidBeforehand = z.infer<typeof SaidBeforehandSchema>;

export const SaidBeforehandListSchema = z
  .array(SaidBeforehandSchema, { error: 'must list the numbers said beforehand' })
  .max(8, { error: 'must list at most 8 numbers said beforehand' });
