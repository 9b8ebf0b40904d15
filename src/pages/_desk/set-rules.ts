import { z } from 'zod';
import { can, type Site, type Viewer } from '../../accounts/index.ts';
import { isIdConflict } from '../../store/index.ts';
import type { WordId } from '../../words/catalogue/index.ts';
import { type Speaker, sayIn } from '../../words/say.ts';
import { type Done, type Refused, refused, sayRefused } from './refused.ts';

export const SECOND_PERSONS = ['nothing', 'authorisation', 'practical-and-authorisation'] as const;

export type RulesWord = Extract<WordId, `workshop-rules.${string}`>;

const whole = (least: number, most: number, key: string) =>
  z
    .string({ error: key })
    .trim()
    .regex(/^\d{1,3}$/, { error: key })
    .transform(Number)
    .refine((value) => value >= least && value <= most, { error: key });

/** Each message is a key of the sheet `workshop-rules`. */
const RulesSchema = z.object({
  id: z.uuidv7({ error: 'bad.id' }),
  months: whole(1, 60, 'bad.months'),
  breakMonths: whole(1, 36, 'bad.breakMonths'),
  noticeDays: whole(7, 180, 'bad.noticeDays'),
  second: z.enum(SECOND_PERSONS, { error: 'bad.second' }),
});

/** A refusal of this form: the sentence is in the sheet `workshop-rules`. */
export type RefusedRules = Refused & { readonly rule?: RulesWord };

export const refuseRules = (status: number, path: string, rule: RulesWord): RefusedRules => ({
  ...refused(status, path, sayIn('en')(rule)),
  rule,
});

/** Why, in the language of the page. */
export const sayRules = (one: RefusedRules, say: Speaker): string =>
  one.rule === undefined ? sayRefused(one, say) : say(one.rule);

/** Sets the organisation's intervals and what needs a second person, from here on. */
export async function setRules(
  viewer: Viewer | null,
  input: unknown,
  site: Site,
  now: Date = new Date(),
): Promise<Done<null>> {
  if (viewer === null || !can(viewer, 'rules.set', { org: viewer.org })) {
    return refuseRules(viewer === null ? 401 : 403, '', 'workshop-rules.refused');
  }
  const read = RulesSchema.safeParse(input);
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
      kind: 'organisation.rules-set',
      version: 1,
      org: viewer.org,
      // the same form again gives the same event
      at: kept?.event?.at ?? now.toISOString(),
      by: viewer.person,
      about: viewer.org,
      body,
    });
  } catch (error) {
    if (isIdConflict(error)) return refused(422, 'id', error.message);
    throw error;
  }
  return { ok: true, value: null };
}
