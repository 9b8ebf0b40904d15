import { z } from 'zod';
import { MEASURE_IDS, MEASURING_POINT_IDS } from '../bench/index.ts';
import { PredictionSchema, slug, text } from './prediction-schema.ts';

const spoilCount = z
  .number({ error: 'must be a whole number from 1 to 8' })
  .int({ error: 'must be a whole number from 1 to 8' })
  .min(1, { error: 'must be a whole number from 1 to 8' })
  .max(8, { error: 'must be a whole number from 1 to 8' });

/** A task at a bench, as a trainer writes it in content/tasks. */
const TaskFields = z.strictObject(
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
    /** places to measure, each read off the tool's own scale; left out, none is asked for */
    readings: z
      .array(z.enum(MEASURING_POINT_IDS, { error: 'must be a known place to measure' }), {
        error: 'must be a list of places to measure',
      })
      .min(1, { error: 'must name at least one place to measure' })
      .exactOptional(),
    /** blade, riving knife and insert may be taken from the rack, and the choice is graded */
    choose: z.boolean({ error: 'must be true or false' }).exactOptional(),
    /** the rack in content/racks to choose from; left out, the workshop's own */
    rack: slug.exactOptional(),
    /** numbers to write down before anything is tried */
    predict: z
      .array(PredictionSchema, { error: 'must be a list of numbers to say beforehand' })
      .min(1, { error: 'must ask for at least one number' })
      .max(8, { error: 'must ask for at most 8 numbers' })
      .exactOptional(),
    /** a trial cut is to be made, and what comes of it is graded */
    cut: z.boolean({ error: 'must be true or false' }).exactOptional(),
  },
  {
    error: (issue) =>
      issue.code === 'unrecognized_keys'
        ? `has no field named ${issue.keys.join(', ')}`
        : 'must be a task',
  },
);

type Fields = z.infer<typeof TaskFields>;

const asksNothing = ({ faults, settings, readings, choose, predict, cut }: Fields): boolean =>
  !faults && settings.length === 0 && !readings && choose !== true && !predict && cut !== true;

/** A task that asks for at least one thing, and for each number once. */
export const TaskSchema = TaskFields.superRefine((task, context) => {
  const refuse = (path: (string | number)[], message: string) =>
    context.addIssue({ code: 'custom', path, message });
  if (asksNothing(task)) {
    refuse([], 'must ask for something: faults, settings, readings, choose, predict or cut');
  }
  const ids = (task.predict ?? []).map(({ id }) => id);
  const twice = ids.findIndex((id, i) => ids.indexOf(id) !== i);
  if (twice >= 0) refuse(['predict', twice, 'id'], `must not use ${ids[twice]} twice`);
  if (task.rack !== undefined && task.choose !== true) {
    refuse(['rack'], 'must be left out where nothing is chosen from it');
  }
});

export type Task = z.infer<typeof TaskSchema>;
