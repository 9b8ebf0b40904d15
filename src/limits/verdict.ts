import { above, atLeast, atMost, below } from '../geometry/index.ts';
import type { LimitEnd } from './failed-ends.ts';

/**
 * What can be said of one setting against one limit.
 * `too-close`: measured with uncertainty, and neither shown to be inside nor shown to be outside.
 * `advice`: the figure never decides (from memory, or common practice in a published set).
 */
export type Verdict = 'within' | 'outside' | 'too-close' | 'not-applicable' | 'advice';

/** The two ends of a limit for one bench, in the unit of the value. */
export type Ends = {
  readonly min: number | null;
  readonly minInclusive: boolean;
  readonly max: number | null;
  readonly maxInclusive: boolean;
};

const clearsMin = (value: number, min: number, ends: Ends): boolean =>
  ends.minInclusive ? atLeast(value, min) : above(value, min);
const clearsMax = (value: number, max: number, ends: Ends): boolean =>
  ends.maxInclusive ? atMost(value, max) : below(value, max);

/** The end that no value within `uncertainty` of this one would meet, if there is one. */
export function failedEnd(value: number, ends: Ends, uncertainty: number): LimitEnd | null {
  const { min, max } = ends;
  // written so that a value that is not a number fails
  if (min !== null && !clearsMin(value + uncertainty, min, ends)) return 'min';
  if (max !== null && !clearsMax(value - uncertainty, max, ends)) return 'max';
  return null;
}

/** Whether every value within `uncertainty` of this one meets both ends. */
export function meetsEnds(value: number, ends: Ends, uncertainty: number): boolean {
  const { min, max } = ends;
  return (
    (min === null || clearsMin(value - uncertainty, min, ends)) &&
    (max === null || clearsMax(value + uncertainty, max, ends))
  );
}

/** Signed distance to the nearest end, positive inside; null when there is none. */
export function marginTo(value: number, { min, max }: Ends): number | null {
  if (min === null) return max === null ? null : max - value;
  return max === null ? value - min : Math.min(value - min, max - value);
}
