import { type Action, type Bench, transition } from '../bench/index.ts';
import { type CutMade, cutIn } from './cuts-made.ts';
import { type Move, type MoveEffect, makeMove, startSetting } from './form/index.ts';
import type { TaskRack } from './task-rack.ts';

/** What came of a list of things done: the bench as it was left, and every cut made on the way. */
export type Replayed = {
  readonly end: Bench;
  readonly effects: readonly { readonly action: number; readonly effect: MoveEffect }[];
  readonly cuts: readonly CutMade[];
};

/** One thing done at a bench, and what is on the bench after it. */
type Doing = (
  bench: Bench,
  move: Move,
) => {
  readonly bench: Bench;
  readonly effects: readonly MoveEffect[];
};

/** With a rack, things may be taken from it; without one, reaching for it does nothing. */
function doingAt(start: Bench, rack: TaskRack | null): Doing {
  if (rack === null) {
    return (bench, move) =>
      move.do === 'fit'
        ? { bench, effects: [{ kind: 'cannot', what: move.what, id: move.id }] }
        : transition(bench, move as Action);
  }
  let state = startSetting({ ...rack, bench: start });
  return (_bench, move) => {
    const step = makeMove(state, move, rack);
    state = step.state;
    return { bench: state.bench, effects: step.effects };
  };
}

/** Does a list of things again from the first bench on. Pure: the same list gives the same end. */
export function replayWork(start: Bench, moves: readonly Move[], rack: TaskRack | null): Replayed {
  const act = doingAt(start, rack);
  const effects: { action: number; effect: MoveEffect }[] = [];
  const cuts: CutMade[] = [];
  let end = start;
  for (const [action, move] of moves.entries()) {
    const step = act(end, move);
    for (const effect of step.effects) effects.push({ action, effect });
    cuts.push(...cutIn(end, step.effects, action));
    end = step.bench;
  }
  return { end, effects, cuts };
}
