import {
  adviseMove,
  type Bench,
  isMeasureId,
  MEASURES,
  type MeasureId,
  measureBench,
  responsesOf,
  SETTINGS,
  type SettingId,
  transition,
} from '../bench/index.ts';
import { formatLength, type LengthUnit } from '../geometry/index.ts';
import type { Result } from '../limits/index.ts';

/** One move that brings a setting inside its limit: which, by how much, and what it then reads. */
export type SettingAdvice = {
  readonly setting: SettingId;
  /** mm, signed as the setting counts; `to` is where it ends */
  readonly by: number;
  readonly to: number;
  readonly measure: MeasureId;
  /** mm, what the measure reads after it */
  readonly reads: number;
};

/** mm inside its limit that a setting is sent, where the limit leaves as much room. */
const INSIDE = 3;

/**
 * What to move, and how far, so that a setting that misses its limit meets it with something in
 * hand. Found from how the bench answers, not from a table of cures. The part the measure is taken
 * on is moved before any other.
 * @returns null when the setting is met, when it is no length, and when no single move would do it
 */
export function adviseFor(result: Result, bench: Bench): SettingAdvice | null {
  const { measure, unit, holds, verdict } = result;
  const isOpen = verdict === 'outside' || verdict === 'too-close' || holds === false;
  if (!isOpen || verdict === 'not-applicable' || unit !== 'mm' || !isMeasureId(measure))
    return null;
  const { part } = MEASURES[measure];
  const wanted = wantedFor(result);
  if (wanted === null) return null;
  const settings = responsesOf(bench, measure).map(({ setting }) => setting);
  const own = settings.filter((setting) => SETTINGS[setting].part === part);
  const others = settings.filter((setting) => SETTINGS[setting].part !== part);
  for (const setting of [...own, ...others]) {
    const advice = tryMove(result, bench, measure, setting, wanted);
    if (advice !== null) return advice;
  }
  return null;
}

/** mm to send the measure to: 3 mm inside the end it misses, or halfway where there is less room. */
function wantedFor({ value, min, max }: Result): number | null {
  if (typeof value !== 'number') return null;
  const room = min !== null && max !== null ? (max - min) / 2 : INSIDE;
  // an end at or below nothing bounds a gap: there is no room beyond touching
  const inside = Math.min(INSIDE, room, max !== null && max > 0 ? max / 2 : INSIDE);
  const missesMin = min !== null && (max === null || value - min < max - value);
  if (missesMin) return min + inside;
  return max === null ? null : max - inside;
}

/** Works the move out exactly, then rounds it to what a hand can set, if that still does it. */
function tryMove(
  result: Result,
  bench: Bench,
  measure: MeasureId,
  setting: SettingId,
  wanted: number,
): SettingAdvice | null {
  const exact = adviseMove(bench, measure, setting, wanted);
  if (exact === null) return null;
  const { step } = SETTINGS[setting];
  const rounded = Math.round(exact.by / step) * step;
  const start = exact.to - exact.by;
  for (const by of [rounded, exact.by]) {
    const reads = readAfter(bench, measure, setting, start + by);
    if (by !== 0 && reads !== null && meets(result, reads)) {
      return { setting, by, to: start + by, measure, reads };
    }
  }
  return null;
}

const meets = ({ min, max }: Result, reads: number): boolean =>
  (min === null || reads > min) && (max === null || reads < max);

/** mm the measure reads once a setting has been moved; null when the move is stopped on the way. */
function readAfter(
  bench: Bench,
  measure: MeasureId,
  setting: SettingId,
  to: number,
): number | null {
  const { part } = SETTINGS[setting];
  const open = part === 'blade' ? bench : transition(bench, { do: 'unlock', part }).bench;
  const { bench: moved, effects } = transition(open, { do: 'set', setting, to });
  if (effects.some(({ kind }) => kind === 'stopped' || kind === 'refused')) return null;
  const value = measureBench(moved)[measure];
  return typeof value === 'number' ? value : null;
}

/** What a hand does for a move up and for a move down, around the length. */
const WORDS: Readonly<Record<SettingId, readonly [more: string, less: string]>> = {
  'knife.along': [
    'Slide the riving knife {by} away from the blade',
    'Slide the riving knife {by} toward the blade',
  ],
  'knife.up': ['Raise the riving knife {by}', 'Lower the riving knife {by}'],
  'guard.height': ['Raise the crown guard {by}', 'Lower the crown guard {by}'],
  'guard.front': [
    'Slide the crown guard {by} toward the take-off end',
    'Slide the crown guard {by} toward the operator',
  ],
  'fence.end': [
    'Push the end of the fence {by} further along the table',
    'Draw the end of the fence {by} back toward the operator',
  ],
  'fence.face': ['Move the fence {by} away from the blade', 'Move the fence {by} toward the blade'],
  'arbor.depth': ['Lower the blade {by}', 'Raise the blade {by}'],
};

/** `Slide the riving knife 3 mm toward the blade, with the supply locked off.` */
export function sayAdvice({ setting, by }: SettingAdvice, shownIn: LengthUnit): string {
  const words = WORDS[setting][by > 0 ? 0 : 1];
  const length = formatLength(Math.abs(by), shownIn);
  return `${words.replace('{by}', length)}, with the supply locked off.`;
}
