import type { PractiseNext } from '../../assessment/index.ts';

const sayDays = (days: number): string =>
  days === 0 ? 'today' : days === 1 ? 'yesterday' : `${days} days ago`;

/** Why something is offered, in one line. */
export function sayPractice({ met, missed, row, days }: PractiseNext): string {
  if (met === 1) return `You walked past it the one time it was there, ${sayDays(days)}.`;
  const often = `Missed ${missed} of ${met} times`;
  if (row === 0) return `${often}, the last time ${sayDays(days)}.`;
  return `${often}. You found it ${sayDays(days)}; by now it may have slipped.`;
}
