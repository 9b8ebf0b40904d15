import { z } from 'zod';
import { WorkSchema } from '../../assessment/index.ts';
import { TIME_WORDS } from './time.ts';

const id = (what: string) => {
  const must = `must be ${what}`;
  return z.string({ error: must }).regex(/^[A-Za-z0-9-]{1,64}$/, { error: must });
};
const blueprint = z
  .string({ error: 'must name a test' })
  .regex(/^[a-z0-9-]{1,60}$/, { error: 'must name a test' });
const attempt = id('the attempt that was opened');
/** drawn by the tab itself: it says which of two tabs is speaking */
const hold = z
  .string({ error: 'must be 16 to 64 letters and digits' })
  .regex(/^[A-Za-z0-9-]{16,64}$/, { error: 'must be 16 to 64 letters and digits' });
const revision = z
  .int({ error: 'must be a whole number from 0' })
  .min(0, { error: 'must be a whole number from 0' });

const group = <Shape extends z.ZodRawShape>(shape: Shape) =>
  z.strictObject(shape, {
    error: (issue) =>
      issue.code === 'unrecognized_keys'
        ? `has no field named ${issue.keys.join(', ')}`
        : `must be a group of fields: ${Object.keys(shape).join(', ')}`,
  });

export const OpenSchema = group({
  blueprint,
  hold,
  /** begin: start one where none is open; take-over: from another tab; look: neither */
  how: z.enum(['look', 'begin', 'take-over'], {
    error: 'must be one of: look, begin, take-over',
  }),
  time: z.enum(TIME_WORDS, { error: `must be one of: ${TIME_WORDS.join(', ')}` }),
});
export const SaveSchema = group({
  attempt,
  hold,
  revision,
  work: WorkSchema,
  pause: z.boolean({ error: 'must be true or false' }),
});
export const MoreSchema = group({ attempt, hold });
export const HandInSchema = group({ attempt, hold, revision, work: WorkSchema });
export const SetSchema = group({
  person: id('somebody of your workshop'),
  blueprint,
  feedback: z.enum(['now', 'later'], { error: 'must be now or later' }),
});
export const ReleaseSchema = group({ attempt });
