import { expect, test } from 'vitest';
import type { Uncertainty, Verdict } from '../../src/limits/index.ts';
import type { BenchOverrides } from './bench.ts';
import { judgeOne } from './rules.ts';

/** A published limit held against one setting: what the source says must come out. */
export type LimitCase = {
  /** the setting, as one would say it */
  readonly says: string;
  readonly limit: string;
  readonly bench: BenchOverrides;
  readonly verdict: Verdict;
  readonly source: string;
  readonly uncertainty?: Uncertainty;
};

/** One named test for each case, with its source in the name. */
export function checkLimits(cases: readonly LimitCase[]): void {
  for (const { says, limit, bench, verdict, source, uncertainty = 0 } of cases) {
    test(`${limit}: ${says} is ${verdict} [${source}]`, () => {
      expect(judgeOne(limit, bench, uncertainty).verdict).toBe(verdict);
    });
  }
}

/**
 * A knife whose edge runs round the 400 mm blade at one gap, tip `drop` below its top.
 * Its centre stands on the arbor axis, so the gap is the same all the way up.
 */
export function knifeAround(gap: number, drop = 2): BenchOverrides {
  return { knife: { edgeRadius: 200 + gap, along: 0, up: 0, reach: 200 - drop } };
}
