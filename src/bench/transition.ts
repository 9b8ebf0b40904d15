import { type Action, type ClampedPart, SETTINGS, type SettingId } from './actions.ts';
import { agreesWith, INSTRUMENTS, type InstrumentId, readInstrument } from './instruments.ts';
import { knifeEdgeExists } from './knife-edge.ts';
import { MEASURING_POINTS, type MeasuringPointId } from './measuring-points.ts';
import { playOf } from './play.ts';
import type { Bench, Knife } from './schema/index.ts';
import { leastGap, slideKnife } from './slide-knife.ts';
import {
  feed,
  isolate,
  isTurning,
  type NotTurned,
  startSaw,
  stopSaw,
  type Turning,
  waitForStop,
} from './turning.ts';

/** What came of an action, as data: for the scene to show, the panel to say and the grader to count. */
export type Effect =
  | {
      readonly kind: 'reading';
      readonly at: MeasuringPointId;
      readonly with: InstrumentId;
      /** mm as the instrument shows it; null when it cannot take this length */
      readonly value: number | null;
      readonly uncertainty: number;
      /** what the trainee read off the scale, mm, null when it was said to take nothing; left out, nobody did */
      readonly read?: { readonly mm: number | null; readonly right: boolean };
    }
  | { readonly kind: 'play'; readonly part: ClampedPart; readonly movement: number }
  | {
      readonly kind: 'refused';
      readonly because: 'locked' | 'taken-off' | 'no-fingers' | NotTurned;
      readonly part: string;
    }
  | {
      readonly kind: 'stopped';
      readonly by: 'teeth' | 'range' | 'table';
      readonly setting: SettingId;
    }
  /** what the blade does now, and the s it took to come to that */
  | { readonly kind: 'turns'; readonly to: Turning; readonly after: number }
  /** a trial cut was made: what came of it is `trialCut` of the bench it was made on */
  | { readonly kind: 'fed'; readonly stopped: number | null }
  /** a critical error: hands at the blade with the supply still on */
  | { readonly kind: 'not-isolated'; readonly action: Action['do'] }
  /** a worse one: hands at the blade while it turns, or a running saw cut off at the isolator */
  | { readonly kind: 'while-turning'; readonly action: Action['do'] };

export type Step = { readonly bench: Bench; readonly effects: readonly Effect[] };

/** What a person does with a hand near the teeth, so that the supply must be locked off first. */
const NEEDS_ISOLATION: ReadonlySet<Action['do']> = new Set([
  'unlock',
  'lock',
  'set',
  'rest-fingers',
  'raise-fingers',
  'measure',
  'try',
]);

/**
 * The bench after one action, and what came of it. Pure: the bench given is left as it was.
 * An action that cannot be done changes nothing and says why; a dangerous one is done, as in life,
 * and is marked.
 */
export function transition(bench: Bench, action: Action): Step {
  const step = act(bench, action);
  const kind = dangerOf(bench, action);
  return kind === null
    ? step
    : { bench: step.bench, effects: [{ kind, action: action.do }, ...step.effects] };
}

function dangerOf(bench: Bench, action: Action): Danger | null {
  const { isolated, turning, stopWorks } = bench.controls;
  if (NEEDS_ISOLATION.has(action.do)) {
    if (isTurning(bench)) return 'while-turning';
    return isolated ? null : 'not-isolated';
  }
  // with a stop that fails, the isolator is the right hand to reach for
  const cutsOff = action.do === 'isolate' && turning === 'running' && stopWorks !== false;
  return cutsOff ? 'while-turning' : null;
}

export type Danger = 'not-isolated' | 'while-turning';

/** An effect that is a critical error of itself. */
export const isDanger = <Came extends { readonly kind: string }>(
  effect: Came,
): effect is Extract<Came, { kind: Danger }> =>
  effect.kind === 'not-isolated' || effect.kind === 'while-turning';

/** Runs a list of actions from a bench. Every effect carries the index of its action. */
export function replay(
  bench: Bench,
  actions: readonly Action[],
): { bench: Bench; effects: { action: number; effect: Effect }[] } {
  const effects: { action: number; effect: Effect }[] = [];
  let state = bench;
  for (const [index, action] of actions.entries()) {
    const step = transition(state, action);
    state = step.bench;
    for (const effect of step.effects) effects.push({ action: index, effect });
  }
  return { bench: state, effects };
}

type Measuring = Extract<Action, { do: 'measure' }>;

const unchanged = (bench: Bench, ...effects: Effect[]): Step => ({ bench, effects });

function act(bench: Bench, action: Action): Step {
  switch (action.do) {
    case 'isolate':
      return isolate(bench);
    case 'reconnect':
      return unchanged({ ...bench, controls: { ...bench.controls, isolated: false } });
    case 'start':
      return startSaw(bench);
    case 'stop':
      return stopSaw(bench);
    case 'wait':
      return waitForStop(bench);
    case 'feed':
      return feed(bench, action.stopped);
    case 'unlock':
      return clamp(bench, action.part, 'open');
    case 'lock':
      return clamp(bench, action.part, 'tight');
    case 'set':
      return set(bench, action.setting, action.to);
    case 'rest-fingers':
      return moveFingers(bench, 'resting');
    case 'raise-fingers':
      return moveFingers(bench, 'raised');
    case 'measure':
      return unchanged(bench, takeReading(bench, action));
    case 'try':
      return unchanged(bench, tryByHand(bench, action.part));
    case 'look':
      return unchanged(bench);
  }
}

function clamp(bench: Bench, name: ClampedPart, to: 'open' | 'tight'): Step {
  const held = bench[name];
  if (held === null) return unchanged(bench, { kind: 'refused', because: 'taken-off', part: name });
  return unchanged({ ...bench, [name]: { ...held, locked: to === 'tight' } });
}

function moveFingers(bench: Bench, to: 'resting' | 'raised'): Step {
  if (bench.guard === null) {
    return unchanged(bench, { kind: 'refused', because: 'taken-off', part: 'guard' });
  }
  if (bench.guard.fingers === 'none') {
    return unchanged(bench, { kind: 'refused', because: 'no-fingers', part: 'guard' });
  }
  return unchanged({ ...bench, guard: { ...bench.guard, fingers: to } });
}

function takeReading(bench: Bench, { at, with: id, read }: Measuring): Effect {
  const instrument = INSTRUMENTS[id];
  const point = MEASURING_POINTS[at];
  const allowed: readonly InstrumentId[] = point.instruments;
  const length = allowed.includes(id) ? point.take(bench) : null;
  const value = length === null ? null : readInstrument(instrument, length);
  const { uncertainty } = instrument;
  const reading = { kind: 'reading', at, with: id, value, uncertainty } as const;
  return read === undefined
    ? reading
    : { ...reading, read: { mm: read, right: agreesWith(value, read, instrument) } };
}

function tryByHand(bench: Bench, name: ClampedPart): Effect {
  const movement = playOf(bench, name);
  return movement === null
    ? { kind: 'refused', because: 'taken-off', part: name }
    : { kind: 'play', part: name, movement };
}

function set(bench: Bench, setting: SettingId, wanted: number): Step {
  const { part, least, most } = SETTINGS[setting];
  if (part !== 'blade') {
    const held = bench[part];
    if (held === null) return unchanged(bench, { kind: 'refused', because: 'taken-off', part });
    if (!held.locked) return move(bench, setting, Math.min(most, Math.max(least, wanted)), wanted);
    return unchanged(bench, { kind: 'refused', because: 'locked', part });
  }
  return move(bench, setting, Math.min(most, Math.max(least, wanted)), wanted);
}

function move(bench: Bench, setting: SettingId, to: number, wanted: number): Step {
  const out = to !== wanted ? [{ kind: 'stopped', by: 'range', setting } as const] : [];
  const step = applySetting(bench, setting, to);
  return { bench: step.bench, effects: [...step.effects, ...out] };
}

function applySetting(bench: Bench, setting: SettingId, to: number): Step {
  const { knife, guard, fence } = bench;
  switch (setting) {
    case 'knife.along':
      return knife === null ? unchanged(bench) : slide(bench, { ...knife, along: to }, setting);
    case 'knife.up':
      return knife === null ? unchanged(bench) : slide(bench, { ...knife, up: to }, setting);
    case 'guard.height':
      return guard === null
        ? unchanged(bench)
        : unchanged({ ...bench, guard: { ...guard, height: to } });
    case 'guard.front': {
      if (guard === null) return unchanged(bench);
      const rear = guard.rear + (to - guard.front);
      return unchanged({ ...bench, guard: { ...guard, front: to, rear } });
    }
    case 'fence.end':
      return unchanged({ ...bench, fence: { ...fence, end: to } });
    case 'fence.face':
      return unchanged({ ...bench, fence: { ...fence, face: to } });
    case 'arbor.depth':
      return raiseBlade(bench, to);
  }
}

function slide(bench: Bench, wanted: Knife, setting: SettingId): Step {
  const { knife, stoppedBy } = slideKnife(bench, wanted);
  const effects: Effect[] = stoppedBy === null ? [] : [{ kind: 'stopped', by: stoppedBy, setting }];
  return { bench: { ...bench, knife }, effects };
}

/**
 * Rise and fall. A knife carried with the arbor comes along; one on the frame or the table stays
 * where it is, so against the axis it moves the other way.
 */
function raiseBlade(bench: Bench, depth: number): Step {
  const radius = bench.blade.diameter / 2;
  const deepest = radius - 1;
  const to = Math.min(depth, deepest);
  const { knife } = bench;
  const carried =
    knife === null || knife.carriedBy === 'arbor'
      ? knife
      : { ...knife, up: knife.up + (to - bench.arbor.depth) };
  const next: Bench = { ...bench, arbor: { ...bench.arbor, depth: to }, knife: carried };
  const fits = carried === null || (knifeEdgeExists(carried, to) && leastGap(next, carried) >= 0);
  if (!fits) return unchanged(bench, { kind: 'stopped', by: 'teeth', setting: 'arbor.depth' });
  return unchanged(
    next,
    ...(to !== depth ? [{ kind: 'stopped', by: 'range', setting: 'arbor.depth' } as const] : []),
  );
}
