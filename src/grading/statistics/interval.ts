import { requireNumber, requireWhole } from './arguments.ts';
import { normalQuantile } from './normal.ts';

export type Interval = { readonly low: number; readonly high: number };

/** Half-width of a two-sided normal interval in standard errors: 1.959964 for 0.95. */
export function criticalValue(confidence: number): number {
  requireNumber('confidence', confidence, 0.5, 0.9999);
  return normalQuantile((1 + confidence) / 2);
}

/**
 * Wilson's score interval for a proportion (Wilson 1927; Newcombe 1998, method 3), no continuity
 * correction. successes 0 to trials, trials 0 or more. It keeps inside 0 to 1 and is never empty,
 * at no or all successes too; with no trials it is 0 to 1: nothing is known.
 */
export function wilsonInterval(successes: number, trials: number, confidence = 0.95): Interval {
  requireWhole('trials', trials, 0);
  requireWhole('successes', successes, 0, trials);
  const z = criticalValue(confidence);
  if (trials === 0) return { low: 0, high: 1 };
  const p = successes / trials;
  const spread = z * Math.sqrt((p * (1 - p)) / trials + (z * z) / (4 * trials * trials));
  const middle = p + (z * z) / (2 * trials);
  const scale = 1 + (z * z) / trials;
  return {
    // exact at the ends, where rounding would leave a speck
    low: successes === 0 ? 0 : (middle - spread) / scale,
    high: successes === trials ? 1 : (middle + spread) / scale,
  };
}
