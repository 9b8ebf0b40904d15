import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { decode, encode, GRID, mismatch, strength } from './signature.ts';

const cells = GRID.across * GRID.down;
const grid = fc.array(fc.double({ min: -60, max: 60, noNaN: true }), {
  minLength: cells,
  maxLength: cells,
});
const spot = (at: number, value: number) =>
  Array.from({ length: cells }, (_, i) => (i === at ? value : 0));

describe('the signature of a picture', () => {
  it('comes back as it was kept, to a quarter of a step of 255', () => {
    fc.assert(
      fc.property(grid, (values) => {
        const text = encode(values);
        expect(text).toHaveLength(2 * cells);
        decode(text).forEach((value, i) => {
          expect(Math.abs(value - (values[i] ?? 0))).toBeLessThanOrEqual(0.25);
        });
      }),
      { numRuns: 40 },
    );
  });

  it('matches itself, and misses wholly what is not there', () => {
    const seen = spot(40, 20);
    expect(mismatch(seen, seen)).toBe(0);
    expect(mismatch(spot(40, 0), seen)).toBe(1);
    expect(mismatch(spot(41, 20), seen)).toBe(2);
    expect(mismatch(spot(40, 12), seen)).toBeCloseTo(0.4, 6);
  });

  it('lets the noise of an edge pass', () => {
    const noisy = Array.from({ length: cells }, (_, i) => (i % 2 === 0 ? 0.5 : -0.5));
    expect(strength(noisy)).toBe(0);
    expect(mismatch(noisy, spot(0, 0))).toBe(0);
  });
});
