import { type Bench, type MeasureId, measureBench } from '../bench/index.ts';
import { judgeLimit, type Result } from './judge.ts';
import type { LimitSet } from './limit-set.ts';

/** What a person measured at a real machine. */
export type Reading = {
  readonly measure: MeasureId;
  /** in the unit of the measure */
  readonly value: number;
  /** U of the instrument, mm; only for lengths */
  readonly uncertainty?: number;
};

/**
 * Readings taken by hand against a set: each limit on a measure that was read, in the order of the
 * readings. Whether a limit is in force is taken from the bench on record (blade, cut, guard), the
 * value from the reading.
 */
export function judgeReadings(bench: Bench, readings: readonly Reading[], set: LimitSet): Result[] {
  const measures = {
    ...measureBench(bench),
    ...Object.fromEntries(readings.map(({ measure, value }) => [measure, value])),
  };
  return readings.flatMap(({ measure, uncertainty }) =>
    set.limits
      .filter((limit) => limit.measure === measure)
      .map((limit) => judgeLimit(limit, bench, measures, uncertainty ?? 0)),
  );
}
