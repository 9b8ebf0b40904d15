import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { normalQuantile, wilsonInterval } from '../../../src/grading/index.ts';

/**
 * First three: Newcombe 1998, Statistics in Medicine 17, 857-872 (from memory), the same from
 * statsmodels 0.15.0, proportion_confint(method='wilson'), which gives every digit here.
 */
const INTERVALS: readonly (readonly [number, number, number, number])[] = [
  [81, 263, 0.2552885198782742, 0.36620957698280004],
  [15, 148, 0.06238639953073628, 0.16048724172330803],
  [0, 20, 0, 0.1611251580528194],
  [1, 29, 0.006113214292762667, 0.17175521879320294],
  [20, 20, 0.8388748419471804, 1],
];

/** Twin: the far edge of the values not rejected by the score test, by halving. */
function slowEdge(k: number, n: number, edge: 'low' | 'high'): number {
  const z = normalQuantile(0.975);
  const p = k / n;
  const rejected = (q: number) => Math.abs(p - q) > z * Math.sqrt((q * (1 - q)) / n);
  let [inside, outside] = [p, edge === 'low' ? 0 : 1];
  if (!rejected(outside)) return outside;
  for (let i = 0; i < 200; i += 1) {
    const middle = (inside + outside) / 2;
    if (rejected(middle)) outside = middle;
    else inside = middle;
  }
  return inside;
}

const counts = fc
  .integer({ min: 1, max: 500 })
  .chain((n) => fc.tuple(fc.integer({ min: 0, max: n }), fc.constant(n)));

describe('the Wilson interval', () => {
  test.each(INTERVALS)('for %d of %d is published', (k, n, low, high) => {
    const interval = wilsonInterval(k, n);
    expect(interval.low).toBeCloseTo(low, 12);
    expect(interval.high).toBeCloseTo(high, 12);
  });

  test('matches the four digits Newcombe prints for 81 of 263 and 15 of 148', () => {
    expect(wilsonInterval(81, 263).low.toFixed(4)).toBe('0.2553');
    expect(wilsonInterval(81, 263).high.toFixed(4)).toBe('0.3662');
    expect(wilsonInterval(15, 148).low.toFixed(4)).toBe('0.0624');
    expect(wilsonInterval(15, 148).high.toFixed(4)).toBe('0.1605');
  });

  test('of nothing is everything', () => {
    expect(wilsonInterval(0, 0)).toEqual({ low: 0, high: 1 });
  });

  test('at no success ends at z^2 / (n + z^2)', () => {
    const z2 = normalQuantile(0.975) ** 2;
    expect(wilsonInterval(0, 20).high).toBeCloseTo(z2 / (20 + z2), 14);
  });

  test('is the set of values that the score test does not reject', () => {
    fc.assert(
      fc.property(counts, ([k, n]) => {
        const { low, high } = wilsonInterval(k, n);
        expect(low).toBeCloseTo(k === 0 ? 0 : slowEdge(k, n, 'low'), 9);
        expect(high).toBeCloseTo(k === n ? 1 : slowEdge(k, n, 'high'), 9);
      }),
    );
  });

  test('holds the share seen, keeps inside 0 to 1, has a width, and mirrors', () => {
    fc.assert(
      fc.property(counts, ([k, n]) => {
        const { low, high } = wilsonInterval(k, n);
        const other = wilsonInterval(n - k, n);
        expect(low).toBeGreaterThanOrEqual(0);
        expect(low).toBeLessThanOrEqual(k / n);
        expect(high).toBeGreaterThanOrEqual(k / n);
        expect(high).toBeLessThanOrEqual(1);
        expect(high - low).toBeGreaterThan(0);
        expect(other.low).toBeCloseTo(1 - high, 12);
      }),
    );
  });

  test('narrows with more trials and widens with more confidence', () => {
    fc.assert(
      fc.property(counts, ([k, n]) => {
        const width = (i: { low: number; high: number }) => i.high - i.low;
        expect(width(wilsonInterval(2 * k, 2 * n))).toBeLessThan(width(wilsonInterval(k, n)));
        expect(width(wilsonInterval(k, n, 0.99))).toBeGreaterThan(width(wilsonInterval(k, n)));
      }),
    );
  });

  test('names what it refuses', () => {
    expect(() => wilsonInterval(5, 4)).toThrow('successes must be a whole number from 0 to 4');
    expect(() => wilsonInterval(1, 2.5)).toThrow('trials must be a whole number 0 or more');
    expect(() => wilsonInterval(1, 2, 1)).toThrow('confidence must be a number from 0.5');
  });
});
