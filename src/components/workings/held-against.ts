import { type Bench, type MeasureId, measureBench } from '../../bench/index.ts';
import { judgeLimit, type LimitSet, type Result } from '../../limits/index.ts';

import type { Speaker } from '../../words/say.ts';
import { limitPieces } from '../lesson/limit-pieces.ts';
import { type Piece, plainText } from '../pieces.ts';

/** One published figure held against the bench, and every set that carries it. */
export type Held = {
  readonly result: Result;
  readonly asks: readonly Piece[];
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
  say: Speaker,
): Held[] {
  const measured = measureBench(bench);
  const held = new Map<string, { result: Result; asks: Held['asks']; sets: string[] }>();
  for (const set of sets) {
    for (const limit of set.limits) {
      if (!measures.some((id) => id === limit.measure)) continue;
      const result = judgeLimit(limit, bench, measured);
      if (result.verdict === 'not-applicable') continue;
      const asks = limitPieces(limit, result, say);
      const title = say.maybe(`rule-sets.title.${set.id}`, set.title);
      const key = JSON.stringify([limit.measure, plainText(asks), result.source, result.grade]);
      const known = held.get(key);
      if (known === undefined) held.set(key, { result, asks, sets: [title] });
      else known.sets.push(title);
    }
  }
  const order = new Map<string, number>(measures.map((id, i) => [id, i]));
  return [...held.values()].sort(
    (a, b) => (order.get(a.result.measure) ?? 0) - (order.get(b.result.measure) ?? 0),
  );
}
