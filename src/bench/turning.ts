import type { Bench } from './schema/index.ts';
import type { Effect, Step } from './transition.ts';

export type Turning = NonNullable<Bench['controls']['turning']>;

/** Why a button or a feed brought nothing. */
export type NotTurned =
  | 'locked-off'
  | 'running'
  | 'still'
  | 'stop-fails'
  | 'not-running'
  | 'not-fed';

export const turningOf = ({ controls }: Bench): Turning => controls.turning ?? 'still';
export const isTurning = (bench: Bench): boolean => turningOf(bench) !== 'still';

const turn = (bench: Bench, to: Turning, after: number): Step => ({
  bench: { ...bench, controls: { ...bench.controls, turning: to } },
  effects: [{ kind: 'turns', to, after }],
});

function refuse(bench: Bench, because: NotTurned, part = 'controls'): Step {
  const effect: Effect = { kind: 'refused', because, part };
  return { bench, effects: [effect] };
}

/** Locks the supply off. A blade that runs is left to run down. */
export function isolate(bench: Bench): Step {
  const off: Bench = { ...bench, controls: { ...bench.controls, isolated: true } };
  return turningOf(bench) === 'running' ? turn(off, 'slowing', 0) : { bench: off, effects: [] };
}

/** Presses start, and stands clear until the blade has come to speed. */
export function startSaw(bench: Bench): Step {
  if (bench.controls.isolated) return refuse(bench, 'locked-off');
  if (turningOf(bench) === 'running') return refuse(bench, 'running');
  return turn(bench, 'running', bench.arbor.runUp);
}

export function stopSaw(bench: Bench): Step {
  if (turningOf(bench) !== 'running') return refuse(bench, 'still');
  if (bench.controls.stopWorks === false) return refuse(bench, 'stop-fails');
  return turn(bench, 'slowing', 0);
}

/** Waits out the run-down; nobody waits beside a saw that nothing has stopped. */
export function waitForStop(bench: Bench): Step {
  const turning = turningOf(bench);
  if (turning === 'still') return refuse(bench, 'still');
  return turning === 'running'
    ? refuse(bench, 'running')
    : turn(bench, 'still', bench.arbor.runDown);
}

/** Feeds the job through. Stop pressed on the way leaves the blade slowing, if it stops at all. */
export function feed(bench: Bench, pressed: number | null): Step {
  if (turningOf(bench) !== 'running') return refuse(bench, 'not-running', 'stock');
  if (bench.job.fed === 0) return refuse(bench, 'not-fed', 'stock');
  const stopped = bench.controls.stopWorks === false ? null : pressed;
  const fed: Effect = { kind: 'fed', stopped };
  if (stopped === null) return { bench, effects: [fed] };
  const { bench: after, effects } = turn(bench, 'slowing', 0);
  return { bench: after, effects: [fed, ...effects] };
}
