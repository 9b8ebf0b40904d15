import { type Bench, type MeasureId, measureBench } from '../../bench/index.ts';
import { judgeLimit, type LimitSet, type Result, sayLimit } from '../../limits/index.ts';

/** One published figure held against the bench, and every set that carries it. */
export type Held = {
  readonly result: Result;
  readonly asks: { readonly mm: string; readonly inch: string };
  readonly sets: readonly string[];
};

/**
 * What the limit sets say of some measures of a bench. A figure that several sets share is told
 * once; a figure that is not in force here is left out.
 */
export function heldAgainst(
  bench: Bench,
  sets: Iterable<LimitSet>,
  measures: readonly MeasureId[],
): Held[] {
  const measured = measureBench(bench);
  const held = new Map<string, { result: Result; asks: Held['asks']; sets: string[] }>();
  for (const set of sets) {
    for (const limit of set.limits) {
      if (!measures.some((id) => id === limit.measure)) continue;
      const result = judgeLimit(limit, bench, measured);
      if (result.verdict === 'not-applicable') continue;
      const asks = { mm: sayLimit(limit, result, 'mm'), inch: sayLimit(limit, result, 'inch') };
      const key = JSON.stringify([limit.measure, asks.mm, result.source, result.grade]);
      const known = held.get(key);
      if (known === undefined) held.set(key, { result, asks, sets: [set.title] });
      else known.sets.push(set.title);
    }
  }
  const order = new Map<string, number>(measures.map((id, i) => [id, i]));
  return [...held.values()].sort(
    (a, b) => (order.get(a.result.measure) ?? 0) - (order.get(b.result.measure) ?? 0),
  );
}
