import type { Site } from '../site.ts';
import type { Role } from '../viewer.ts';

export const SECOND_STEP_WHO = ['nobody', 'trainers', 'trainers-and-employers'] as const;
export type SecondStepWho = (typeof SECOND_STEP_WHO)[number];

/** Whom the organisation asks for a second step, and from which day (YYYY-MM-DD, by UTC) on. */
export type SecondStepRule = { readonly who: SecondStepWho; readonly from: string };

/** The newest rule of an organisation; without one nobody is asked. */
export async function secondStepRule(site: Site, org: string): Promise<SecondStepRule> {
  const set = await site.store.events({ org, kinds: ['organisation.second-step-set'] });
  const newest = set.flatMap(({ event }) => (event === null ? [] : [event])).at(-1);
  return newest?.body ?? { who: 'nobody', from: '1970-01-01' };
}

/** What the rule means for a role: not asked, asked from a day still to come, or asked now. */
export function askedBy(rule: SecondStepRule, role: Role, now: Date): 'no' | 'soon' | 'now' {
  const isMeant =
    (role === 'trainer' && rule.who !== 'nobody') ||
    (role === 'employer' && rule.who === 'trainers-and-employers');
  if (!isMeant) return 'no';
  return rule.from > now.toISOString().slice(0, 10) ? 'soon' : 'now';
}
