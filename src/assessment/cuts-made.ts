import {
  type Action,
  type Bench,
  cutShort,
  type Effect,
  type TrialCut,
  transition,
  trialCut,
} from '../bench/index.ts';

type Fed = Extract<Effect, { kind: 'fed' }>;

/** A trial cut as it was made: the bench it was made on, and what came of it. */
export type CutMade = {
  /** index into the actions */
  readonly action: number;
  readonly bench: Bench;
  readonly cut: TrialCut;
};

/** The trial cuts among what was done; a feed that was refused made none. */
export function cutsMade(start: Bench, actions: readonly Action[]): CutMade[] {
  let bench = start;
  return actions.flatMap((one, action) => {
    const before = bench;
    const step = transition(before, one);
    bench = step.bench;
    return cutIn(before, step.effects, action);
  });
}

/** The trial cut among what came of one action on `bench`, if there was one. */
export function cutIn(
  bench: Bench,
  effects: readonly { readonly kind: string }[],
  action: number,
): CutMade[] {
  const fed = effects.find((effect): effect is Fed => effect.kind === 'fed');
  const cut = fed === undefined ? null : trialCut(bench);
  return fed === undefined || cut === null
    ? []
    : [{ action, bench, cut: cutShort(cut, fed.stopped) }];
}
