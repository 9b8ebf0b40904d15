import { type Bench, measureBench } from '../../bench/index.ts';
import { inchesToMm } from '../../geometry/index.ts';
import { judgeLimit, type Limit, meetsEnds } from '../../limits/index.ts';

/**
 * Whether a reading would meet a limit on this bench.
 * @param reading in the unit the limit was published in
 */
export function meetsLimit(limit: Limit, reading: number, bench: Bench): boolean {
  const { wanted } = limit;
  if (wanted.kind !== 'size') return false;
  const { min, max } = judgeLimit(limit, bench, measureBench(bench));
  const { minInclusive, maxInclusive } = wanted;
  const value = limit.published === 'in' ? inchesToMm(reading) : reading;
  return meetsEnds(value, { min, max, minInclusive, maxInclusive }, 0);
}
