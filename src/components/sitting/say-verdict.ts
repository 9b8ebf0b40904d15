import type { Bar, FormGrade } from '../../assessment/index.ts';
import { ASKED } from './asked.ts';

/** Whether the mark was reached, in words that make nobody competent. */
export function sayVerdict({ passed, bars }: FormGrade): string {
  if (passed === null) return 'No pass mark has been set for this test yet';
  if (passed) return 'Passed on the screen';
  return bars.some(({ kind }) => kind === 'critical' || kind === 'not-isolated')
    ? 'Not passed: something in it would have hurt somebody'
    : 'Not passed';
}

const round = (score: number) => Math.round(score);

/** One thing that kept the form from being passed; critical lines are told where they stand. */
export function sayBar(bar: Bar): string | null {
  switch (bar.kind) {
    case 'critical':
      return null;
    case 'not-isolated':
      return `Hands at the blade with the supply on, ${bar.times === 1 ? 'once' : `${bar.times} times`}. Once is enough to lose them: switch off and lock off first.`;
    case 'no-better-than-luck':
      return 'The faults named were named no better than by luck: naming much that is not there undoes what was found.';
    case 'weak-part':
      return `“${ASKED[bar.part]}” scored ${round(bar.score)} of 100. No part may be below ${bar.least}, however well the others went.`;
    case 'below-mark':
      return `The score is ${round(bar.score)}; the pass mark is ${bar.mark}.`;
  }
}
