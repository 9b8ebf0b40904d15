import { z } from 'zod';
import { can, SECOND_STEP_WHO, type Site, type Viewer } from '../../accounts/index.ts';
import { isIdConflict } from '../../store/index.ts';
import { sayIn } from '../../words/say.ts';
import { type Done, refused } from './refused.ts';
import { type RefusedRules, type RulesWord, refuseRules } from './set-rules.ts';

/** Each message is a key of the sheet `workshop-rules`. */
const SecondStepSchema = z.object({
  id: z.uuidv7({ error: 'bad.id' }),
  who: z.enum(SECOND_STEP_WHO, { error: 'bad.who' }),
  from: z.iso.date({ error: 'bad.from' }),
});

/** Sets whom the organisation asks for a second step at sign-in, and from which day on. */
export async function setSecondStep(
  viewer: Viewer | null,
  input: unknown,
  site: Site,
  now: Date = new Date(),
): Promise<Done<null> | RefusedRules> {
  if (viewer === null || !can(viewer, 'rules.set', { org: viewer.org })) {
    return refuseRules(viewer === null ? 401 : 403, '', 'workshop-rules.refused');
  }
  const read = SecondStepSchema.safeParse(input);
  if (!read.success) {
    const [issue] = read.error.issues;
    const key = `workshop-rules.${issue?.message ?? ''}` as RulesWord;
    return refuseRules(400, String(issue?.path[0] ?? ''), key);
  }
  const { id, ...body } = read.data;
  const kept = await site.store.event(id);
  try {
    await site.store.append({
      id,
      kind: 'organisation.second-step-set',
      version: 1,
      org: viewer.org,
      // the same form again gives the same event
      at: kept?.event?.at ?? now.toISOString(),
      by: viewer.person,
      about: viewer.org,
      body,
    });
  } catch (error) {
    if (isIdConflict(error)) return refused(422, 'id', sayIn('en')('workshop-rules.bad.id'));
    throw error;
  }
  return { ok: true, value: null };
}
