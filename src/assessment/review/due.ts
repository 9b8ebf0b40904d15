import { type Answer, answersByQuestion } from './answers.ts';
import { chanceRemembered, daysBetween, type Memory, remember } from './memory.ts';

/** A question somebody has answered, and how well it is likely to be remembered now. */
export type Remembered = Memory & {
  readonly lesson: string;
  readonly question: string;
  /** 0 to 1 */
  readonly chance: number;
};

/** What is remembered of every question answered, most forgotten first. The order of the answers is no matter. */
export function recallAll(answers: Iterable<Answer>, now: string): Remembered[] {
  const all = [...answersByQuestion(answers).values()].map((group) => {
    const { lesson, question } = group[0] as Answer;
    const memory = group.reduce<Memory | null>(remember, null) as Memory;
    const chance = chanceRemembered(daysBetween(memory.lastAt, now), memory.stability);
    return { lesson, question, ...memory, chance };
  });
  return all.sort((a, b) => a.chance - b.chance || (a.dueAt < b.dueAt ? -1 : 1));
}

/** What is due now, most forgotten first, and the instant the next one is due after now, if any. */
export type Due = { readonly due: readonly Remembered[]; readonly next: Remembered | null };

export function findDue(answers: Iterable<Answer>, now: string): Due {
  const time = Date.parse(now);
  const isDue = ({ dueAt }: Memory): boolean => Date.parse(dueAt) <= time;
  const all = recallAll(answers, now);
  const later = all
    .filter((one) => !isDue(one))
    .sort((a, b) => Date.parse(a.dueAt) - Date.parse(b.dueAt));
  return { due: all.filter(isDue), next: later[0] ?? null };
}
