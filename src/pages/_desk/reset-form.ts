import { z } from 'zod';
import { grant, type Outcome, type ResetClears, refuseAs } from '../../accounts/index.ts';

const ResetFormSchema = z.object({
  /** made where the form is, so that pressing twice makes one link */
  id: z.uuidv7({ error: 'id' }),
  clears: z.enum(['password', 'everything'], { error: 'clears' }),
});

/** The fields of the form that makes a link for a new password, or which of them is wrong. */
export function readResetForm(
  form: Readonly<Record<string, string>>,
): Outcome<{ readonly id: string; readonly clears: ResetClears }> {
  const read = ResetFormSchema.safeParse(form);
  if (read.success) return grant(read.data);
  const isClears = read.error.issues[0]?.message === 'clears';
  return refuseAs(400, isClears ? 'clears' : 'id', {
    key: isClears ? 'reset.clears' : 'reset.again',
  });
}
