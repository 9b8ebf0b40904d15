import type { Day } from '../dates.ts';
import type { AgeRule } from './age-schema.ts';

/** The rule on age for a limit set: the one that names it, else the one for all others. */
export function ageRuleFor(rules: Iterable<AgeRule>, set: string): AgeRule | null {
  const all = [...rules];
  return (
    all.find(({ sets }) => sets.includes(set)) ?? all.find(({ otherwise }) => otherwise) ?? null
  );
}

/** Whole years a person has lived on a day. Born on 29 February, they come of age on 1 March of a common year. */
export function yearsOn(day: Day, bornOn: Day): number {
  const [year = 0, born = 0] = [day, bornOn].map((one) => Number(one.slice(0, 4)));
  return year - born - (day.slice(5) < bornOn.slice(5) ? 1 : 0);
}

/**
 * What a rule makes of an age on a day. `ask`: no age is known, so local law is to be asked and an
 * answer given. `young-under-supervision` still needs the condition the rule names to be met.
 */
export type AgeAnswer = 'old-enough' | 'young-under-supervision' | 'too-young' | 'ask';

export function settleAge(rule: AgeRule, person: { bornOn: Day; on: Day }): AgeAnswer {
  if (rule.least === null) return 'ask';
  if (yearsOn(person.on, person.bornOn) >= rule.least) return 'old-enough';
  return rule.younger === null ? 'too-young' : 'young-under-supervision';
}
