import { z } from 'zod';
import { MEASURE_IDS, MEASURING_POINT_IDS } from '../bench/index.ts';

const text = (most: number) => {
  const must = `must be text of 1 to ${most} characters`;
  return z.string({ error: must }).min(1, { error: must }).max(most, { error: must });
};

const slug = z
  .string({ error: 'must be a short name' })
  .regex(/^[a-z0-9-]{1,60}$/, { error: 'must be small letters, digits and hyphens, at most 60' });

const spoilCount = z
  .number({ error: 'must be a whole number from 1 to 8' })
  .int({ error: 'must be a whole number from 1 to 8' })
  .min(1, { error: 'must be a whole number from 1 to 8' })
  .max(8, { error: 'must be a whole number from 1 to 8' });

/** A task at a bench, as a trainer writes it in content/tasks. */
export const TaskSchema = z.strictObject(
  {
    id: slug,
    title: text(120),
    /** what the trainee is told */
    brief: text(800),
    /** in practice the trainee may ask how close a setting is; in a test nothing is told before the end */
    mode: z.enum(['practice', 'test'], { error: 'must be practice or test' }),
    /** the bench file it starts from, in content/benches */
    bench: slug,
    /** limit sets in force, the deciding one first */
    limits: z.array(slug, { error: 'must be a list of limit sets' }).min(1, {
      error: 'must name at least one limit set',
    }),
    /** the trainee looks for faults and writes them down */
    faults: z.boolean({ error: 'must be true or false' }),
    /** how many things go wrong on a fresh bench; left out, the bench is used as it stands */
    spoil: z.strictObject({ least: spoilCount, most: spoilCount }).optional(),
    /** measures the trainee is to bring within the limits */
    settings: z.array(z.enum(MEASURE_IDS, { error: 'must be a known measure' }), {
      error: 'must be a list of measures',
    }),
    /** in a test: places to measure, each read off the tool's own scale; left out, none is asked for */
    readings: z
      .array(z.enum(MEASURING_POINT_IDS, { error: 'must be a known place to measure' }), {
        error: 'must be a list of places to measure',
      })
      .min(1, { error: 'must name at least one place to measure' })
      .exactOptional(),
  },
  { error: 'must be a task' },
);

export type Task = z.infer<typeof TaskSchema>;
