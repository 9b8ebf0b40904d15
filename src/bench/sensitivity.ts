import { atLeast, atMost } from '../geometry/index.ts';
import { SETTING_IDS, SETTINGS, type SettingId } from './actions.ts';
import { type MeasureId, measureBench } from './measures/index.ts';
import type { Bench } from './schema/index.ts';
import { transition } from './transition.ts';

/** How a measure answers to a hand: its change for each mm of a setting. */
export type Response = { readonly setting: SettingId; readonly perMm: number };

/** mm either side for the slope: small beside any radius here, large beside rounding. */
const STEP = 0.01;

const unlocked = (bench: Bench): Bench => ({
  ...bench,
  knife: bench.knife && { ...bench.knife, locked: false },
  guard: bench.guard && { ...bench.guard, locked: false },
  fence: { ...bench.fence, locked: false },
});

/** Where a setting stands now, mm; null when its part is off. */
export function settingNow(bench: Bench, setting: SettingId): number | null {
  switch (setting) {
    case 'knife.along':
      return bench.knife?.along ?? null;
    case 'knife.up':
      return bench.knife?.up ?? null;
    case 'guard.height':
      return bench.guard?.height ?? null;
    case 'guard.front':
      return bench.guard?.front ?? null;
    case 'fence.end':
      return bench.fence.end;
    case 'fence.face':
      return bench.fence.face;
    case 'arbor.depth':
      return bench.arbor.depth;
  }
}

function measureAt(
  bench: Bench,
  setting: SettingId,
  to: number,
  measure: MeasureId,
): number | null {
  const { bench: moved, effects } = transition(unlocked(bench), { do: 'set', setting, to });
  if (effects.some((effect) => effect.kind === 'stopped')) return null;
  const value = measureBench(moved)[measure];
  return typeof value === 'number' ? value : null;
}

/**
 * Which settings move a measure, and how much for each mm, the strongest first. A setting that is
 * up against the teeth or the end of its range is judged from its free side.
 */
export function responsesOf(bench: Bench, measure: MeasureId): Response[] {
  const now = measureBench(bench)[measure];
  if (typeof now !== 'number') return [];
  return SETTING_IDS.flatMap((setting) => {
    const at = settingNow(bench, setting);
    if (at === null) return [];
    const below = measureAt(bench, setting, at - STEP, measure);
    const above = measureAt(bench, setting, at + STEP, measure);
    if (below === null && above === null) return [];
    const rise = (above ?? now) - (below ?? now);
    const run = (above === null ? 0 : STEP) + (below === null ? 0 : STEP);
    const perMm = rise / run;
    return Math.abs(perMm) < 1e-6 ? [] : [{ setting, perMm }];
  }).sort((a, b) => Math.abs(b.perMm) - Math.abs(a.perMm));
}

/** A move that brings a measure to a wanted value. */
export type Advice = { readonly setting: SettingId; readonly by: number; readonly to: number };

/** Newton's method settles in a few steps on curves this gentle; more means it is not to be had. */
const MOST_STEPS = 20;

/**
 * How far to move one setting so that a measure reads `wanted`: "slide the knife 3 mm toward the
 * blade". @returns null when that setting cannot bring it there
 */
export function adviseMove(
  bench: Bench,
  measure: MeasureId,
  setting: SettingId,
  wanted: number,
): Advice | null {
  const start = settingNow(bench, setting);
  if (start === null) return null;
  let at = start;
  for (let i = 0; i < MOST_STEPS; i++) {
    const value = measureAt(bench, setting, at, measure);
    if (value === null) return null;
    if (Math.abs(value - wanted) < 1e-6) return { setting, by: at - start, to: at };
    const ahead = measureAt(bench, setting, at + STEP, measure);
    const behind = measureAt(bench, setting, at - STEP, measure);
    const far = ahead ?? value;
    const near = behind ?? value;
    const slope = (far - near) / ((ahead === null ? 0 : STEP) + (behind === null ? 0 : STEP));
    if (!Number.isFinite(slope) || Math.abs(slope) < 1e-9) return null;
    const next = at + (wanted - value) / slope;
    const { least, most } = SETTINGS[setting];
    // the last bit of a slope must not push a move past the end of its range
    if (!atLeast(next, least) || !atMost(next, most)) return null;
    at = Math.min(most, Math.max(least, next));
  }
  return null;
}
