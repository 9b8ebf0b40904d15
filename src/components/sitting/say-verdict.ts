import type { Bar, FormGrade } from '../../assessment/index.ts';
import type { Speaker } from '../../words/say.ts';

/** Whether the mark was reached, in words that make nobody competent. */
export function sayVerdict({ passed, bars }: FormGrade, say: Speaker): string {
  if (passed === null) return say('review.verdict.no-mark');
  if (passed) return say('review.verdict.passed');
  return bars.some(({ kind }) => kind === 'critical' || kind === 'not-isolated')
    ? say('review.verdict.hurt')
    : say('review.verdict.not-passed');
}

const round = (score: number) => Math.round(score);

/** One thing that kept the form from being passed; critical lines are told where they stand. */
export function sayBar(bar: Bar, say: Speaker): string | null {
  switch (bar.kind) {
    case 'critical':
      return null;
    case 'not-isolated':
      return say.count('review.bar.not-isolated', bar.times);
    case 'no-better-than-luck':
      return say('review.bar.luck');
    case 'weak-part': {
      const part = say(`tests.asked.${bar.part}`);
      return say('review.bar.weak-part', { part, score: round(bar.score), least: bar.least });
    }
    case 'below-mark':
      return say('review.bar.below-mark', { score: round(bar.score), mark: bar.mark });
  }
}
