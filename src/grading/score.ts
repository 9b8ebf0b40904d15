import type { Result } from '../limits/index.ts';
import { isDecided } from '../limits/index.ts';

/** What a setting just inside its limit is worth; the rest is earned by being close to the aim. */
const WITHIN = 60;
const CLOSENESS = 40;

/**
 * Score of one setting: 0 outside the limit, otherwise 60 + 40 * closeness; null when nothing
 * decides it. A setting too close to call is scored by its reading.
 */
export function scoreResult(result: Result): number | null {
  if (!isDecided(result)) return null;
  return result.holds === true ? WITHIN + CLOSENESS * (result.closeness ?? 0) : 0;
}

/** Mean over the results that were decided; null when none was. */
export function scoreResults(results: readonly Result[]): number | null {
  let sum = 0;
  let count = 0;
  for (const result of results) {
    const score = scoreResult(result);
    if (score === null) continue;
    sum += score;
    count += 1;
  }
  return count === 0 ? null : sum / count;
}
