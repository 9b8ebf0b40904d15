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
import { judge, type LimitSet, type Result } from '../limits/index.ts';

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
/** Shares of that, tried in turn until nothing else is put out by the move. */
const SHARES = [1, 0.5, 0.2, 0.05];

/**
 * What to move, and how far, so that a setting that misses its limit meets it with something in
 * hand. Found from how the bench answers, not from a table of cures. Only the part the measure is
 * taken on is moved, and never so that something else that must be met no longer is.
 * @param sets whose limits are not to be put out by the move
 * @returns null when the setting is met, when it is no length, and when no single move would do it
 */
export function adviseFor(
  result: Result,
  bench: Bench,
  sets: readonly LimitSet[] = [],
): SettingAdvice | null {
  const { measure, unit, holds, verdict } = result;
  const isOpen = verdict === 'outside' || verdict === 'too-close' || holds === false;
  if (!isOpen || verdict === 'not-applicable' || unit !== 'mm' || !isMeasureId(measure))
    return null;
  const { part } = MEASURES[measure];
  const met = metOn(bench, sets);
  for (const { setting } of responsesOf(bench, measure)) {
    if (SETTINGS[setting].part !== part) continue;
    for (const share of SHARES) {
      const wanted = wantedFor(result, share);
      const move = wanted === null ? null : tryMove(result, bench, measure, setting, wanted);
      if (move === null) continue;
      const after = metOn(move.bench, sets);
      if ([...met].every((limit) => after.has(limit))) return move.advice;
    }
  }
  return null;
}

/** Ids of the musts a bench is shown to meet. */
function metOn(bench: Bench, sets: readonly LimitSet[]): Set<string> {
  const measures = measureBench(bench);
  const results = sets.flatMap((set) => judge(bench, measures, set));
  const isMet = ({ verdict, grade }: Result) => verdict === 'within' && grade === 'must';
  return new Set(results.filter(isMet).map(({ limit }) => limit));
}

/** mm to send the measure to: 3 mm inside the end it misses, or halfway where there is less room. */
function wantedFor({ value, min, max }: Result, share: number): number | null {
  if (typeof value !== 'number') return null;
  const room = min !== null && max !== null ? (max - min) / 2 : INSIDE;
  // a gap has no room beyond touching
  const inside = share * Math.min(INSIDE, room, max !== null && max > 0 ? max / 2 : INSIDE);
  const missesMin = min !== null && (max === null || value - min < max - value);
  if (missesMin) return min + inside;
  return max === null ? null : max - inside;
}

type Move = { readonly advice: SettingAdvice; readonly bench: Bench };

/** Works the move out exactly, then rounds it to what a hand can set, if that still does it. */
function tryMove(
  result: Result,
  bench: Bench,
  measure: MeasureId,
  setting: SettingId,
  wanted: number,
): Move | null {
  const exact = adviseMove(bench, measure, setting, wanted);
  if (exact === null) return null;
  const { step } = SETTINGS[setting];
  const rounded = Math.round(exact.by / step) * step;
  const start = exact.to - exact.by;
  for (const by of [rounded, exact.by]) {
    const moved = benchAfter(bench, setting, start + by);
    const reads = moved?.measures[measure];
    if (moved === null || by === 0 || typeof reads !== 'number' || !meets(result, reads)) continue;
    return { advice: { setting, by, to: start + by, measure, reads }, bench: moved.bench };
  }
  return null;
}

const meets = ({ min, max }: Result, reads: number): boolean =>
  (min === null || reads > min) && (max === null || reads < max);

/** The bench once a setting has been moved, its clamp tight again; null when it is stopped on the way. */
function benchAfter(bench: Bench, setting: SettingId, to: number) {
  const { part } = SETTINGS[setting];
  const clamped = part === 'blade' ? null : part;
  const open = clamped === null ? bench : transition(bench, { do: 'unlock', part: clamped }).bench;
  const step = transition(open, { do: 'set', setting, to });
  if (step.effects.some(({ kind }) => kind === 'stopped' || kind === 'refused')) return null;
  const moved =
    clamped === null ? step.bench : transition(step.bench, { do: 'lock', part: clamped }).bench;
  return { bench: moved, measures: measureBench(moved) };
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
