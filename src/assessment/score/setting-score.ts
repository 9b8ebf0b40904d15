import { type Bench, type MeasureId, measureBench } from '../../bench/index.ts';
import { isDecided, judgeLimit, type LimitSet, type Result } from '../../limits/index.ts';

/** How one setting stands: every limit in force on it, and what that is worth. */
export type SettingScore = {
  readonly measure: MeasureId;
  /** 0 to 100; null when nothing in force decides it */
  readonly score: number | null;
  readonly results: readonly Result[];
};

/** Just inside the limit; and the closeness from which nothing more is asked. */
const INSIDE = 60;
const CLOSE_ENOUGH = 0.5;

/**
 * Points of one result: 0 outside, 60 at the limit, rising evenly to 100 half-way to the best. The
 * best itself is often out of reach: a knife with no gap at all would touch the teeth.
 */
export function scoreCloseness({ holds, closeness }: Result): number {
  if (holds !== true) return 0;
  return INSIDE + (100 - INSIDE) * Math.min(1, (closeness ?? 0) / CLOSE_ENOUGH);
}

/**
 * Scores settings. How close counts by the first set with a limit on the measure, the deciding one; by
 * every other set it must only be met.
 */
export function scoreSettings(
  bench: Bench,
  wanted: readonly MeasureId[],
  sets: readonly LimitSet[],
): SettingScore[] {
  const measures = measureBench(bench);
  return wanted.map((measure) => {
    const bySet = sets.map((set) =>
      set.limits
        .filter((limit) => limit.measure === measure)
        .map((limit) => judgeLimit(limit, bench, measures))
        .filter(isDecided),
    );
    const results = bySet.flat();
    const deciding = bySet.find((of) => of.length > 0);
    if (deciding === undefined) return { measure, score: null, results };
    const met = results.every(({ holds, grade }) => holds === true || grade === 'should');
    const score = met ? Math.min(...deciding.map(scoreCloseness)) : 0;
    return { measure, score, results };
  });
}
