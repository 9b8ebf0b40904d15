import {
  type Action,
  type Bench,
  cutShort,
  type TrialCut,
  transition,
  trialCut,
} from '../bench/index.ts';

/** A trial cut as it was made: the bench it was made on, and what came of it. */
export type CutMade = {
  /** index into the actions */
  readonly action: number;
  readonly bench: Bench;
  readonly cut: TrialCut;
};

/** The trial cuts among what was done; a feed that was refused made none. */
export function cutsMade(start: Bench, actions: readonly Action[]): CutMade[] {
  const made: CutMade[] = [];
  let bench = start;
  for (const [action, one] of actions.entries()) {
    const step = transition(bench, one);
    const fed = step.effects.find((effect) => effect.kind === 'fed');
    const cut = fed === undefined ? null : trialCut(bench);
    if (fed !== undefined && cut !== null) {
      made.push({ action, bench, cut: cutShort(cut, fed.stopped) });
    }
    bench = step.bench;
  }
  return made;
}
