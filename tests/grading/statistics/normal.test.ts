import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { normalCdf, normalDensity, normalQuantile } from '../../../src/grading/index.ts';

/** mpmath 1.3.0, ncdf and findroot at 40 digits. */
const CHANCES: readonly (readonly [x: number, chance: number])[] = [
  [0, 0.5],
  [0.5, 0.6914624612740131],
  [1, 0.8413447460685429],
  [2, 0.9772498680518207],
  [2.000001, 0.9772499220427333],
  [3, 0.9986501019683699],
  [-1, 0.158655253931457],
  [-1.999999, 0.02275018593919971],
  [-2, 0.0227501319481792],
  [-3, 0.001349898031630094],
  [-5, 2.866515718791939e-7],
  [-10, 7.61985302416053e-24],
  [-37, 5.725571222524576e-300],
];
const QUANTILES: readonly (readonly [p: number, x: number])[] = [
  [0.4, -0.2533471031357997],
  [0.25, -0.6744897501960817],
  [0.1, -1.2815515655446],
  [0.025, -1.959963984540054],
  [0.005, -2.5758293035489],
  [0.001, -3.090232306167813],
  [1e-10, -6.361340902404056],
  [1e-20, -9.262340089798407],
  [1e-300, -37.04709629936119],
];

/** Twin: Simpson's rule on the density from 0 to x, in steps of a thousandth or less. */
function slowCdf(x: number): number {
  const steps = 2 * Math.ceil(Math.abs(x) * 500 + 1);
  const h = x / steps;
  let sum = normalDensity(0) + normalDensity(x);
  for (let i = 1; i < steps; i += 1) sum += normalDensity(i * h) * (i % 2 === 1 ? 4 : 2);
  return 0.5 + (sum * h) / 3;
}

/** Twin: halving. */
function slowQuantile(p: number): number {
  let [low, high] = [-40, 40];
  for (let i = 0; i < 200; i += 1) {
    const middle = (low + high) / 2;
    if (normalCdf(middle) < p) low = middle;
    else high = middle;
  }
  return low;
}

describe('the normal distribution', () => {
  test.each(CHANCES)('has the chance of mpmath below %d', (x, chance) => {
    expect(Math.abs(normalCdf(x) / chance - 1)).toBeLessThan(1e-13);
  });

  test.each(QUANTILES)('has the quantile of mpmath at %d and at one less it', (p, x) => {
    expect(Math.abs(normalQuantile(p) - x)).toBeLessThan(1e-12);
    // 1 - p is rounded to the spacing of numbers near 1
    if (p > 1e-3) expect(Math.abs(normalQuantile(1 - p) + x)).toBeLessThan(1e-12);
  });

  test('passes the table values 1.959964, 2.575829 and 1.644854, which a short formula misses', () => {
    // Abramowitz and Stegun, table 26.5 (from memory); their 26.2.23 is good to 4.5e-4 only
    expect(normalQuantile(0.975)).toBeCloseTo(1.959964, 6);
    expect(normalQuantile(0.995)).toBeCloseTo(2.575829, 6);
    expect(normalQuantile(0.95)).toBeCloseTo(1.644854, 6);
    const t = Math.sqrt(-2 * Math.log(0.025));
    const short =
      t -
      (2.515517 + 0.802853 * t + 0.010328 * t * t) /
        (1 + 1.432788 * t + 0.189269 * t * t + 0.001308 * t ** 3);
    expect(Math.abs(short - normalQuantile(0.975))).toBeGreaterThan(1e-5);
  });

  test('does not clamp: the ends are infinite and the tails go on', () => {
    expect(normalQuantile(0)).toBe(-Infinity);
    expect(normalQuantile(1)).toBe(Infinity);
    expect(normalQuantile(0.5)).toBe(0);
    expect(normalCdf(-Infinity)).toBe(0);
    expect(normalCdf(Infinity)).toBe(1);
    expect(normalQuantile(1e-300)).toBeLessThan(normalQuantile(1e-299));
  });

  test('equals the integral of its density and the halved search', () => {
    fc.assert(
      fc.property(fc.double({ min: -8, max: 8, noNaN: true }), (x) => {
        expect(Math.abs(normalCdf(x) - slowCdf(x))).toBeLessThan(1e-12);
      }),
      { numRuns: 60 },
    );
    fc.assert(
      fc.property(fc.double({ min: 1e-12, max: 1 - 1e-9, noNaN: true }), (p) => {
        // a chance near 1 is known to 1e-16 only, so its quantile is known less well
        const blur = 4e-16 / normalDensity(normalQuantile(p)) + 1e-12;
        expect(Math.abs(normalQuantile(p) - slowQuantile(p))).toBeLessThan(blur);
      }),
    );
  });

  test('returns from a quantile to its chance, and is odd', () => {
    fc.assert(
      fc.property(fc.double({ min: 1e-280, max: 0.5, noNaN: true }), (p) => {
        expect(Math.abs(normalCdf(normalQuantile(p)) / p - 1)).toBeLessThan(1e-11);
      }),
    );
    fc.assert(
      fc.property(fc.double({ min: -30, max: 30, noNaN: true }), (x) => {
        expect(normalCdf(x) + normalCdf(-x)).toBeCloseTo(1, 14);
      }),
    );
  });

  test('names what it refuses', () => {
    expect(() => normalQuantile(1.5)).toThrow('p must be a number from 0 to 1, not 1.5.');
    expect(() => normalQuantile(Number.NaN)).toThrow(RangeError);
    expect(() => normalCdf(Number.NaN)).toThrow('x must be a number');
  });
});
