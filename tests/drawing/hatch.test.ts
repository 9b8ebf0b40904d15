import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { hatchLines } from '../../src/drawing/hatch.ts';

const square = [
  { x: 0, y: 0 },
  { x: 10, y: 0 },
  { x: 10, y: 10 },
  { x: 0, y: 10 },
];

describe('hatching', () => {
  it('fills a square of side 10 at spacing 1 with lines of total length 100', () => {
    // area over spacing, exact for level lines that cross the whole square
    const length = hatchLines([square], 1, 0).reduce(
      (sum, [a, b]) => sum + Math.hypot(b.x - a.x, b.y - a.y),
      0,
    );
    expect(length).toBeCloseTo(100, 6);
  });

  it('leaves a hole open', () => {
    const hole = square.map(({ x, y }) => ({ x: 3 + x * 0.4, y: 3 + y * 0.4 }));
    const inHole = hatchLines([square, hole], 0.5, Math.PI / 4)
      .map(([a, b]) => ({ x: (a.x + b.x) / 2, y: (a.y + b.y) / 2 }))
      .filter(({ x, y }) => x > 3 && x < 7 && y > 3 && y < 7);
    expect(inHole).toEqual([]);
  });

  it('never leaves a convex outline', () => {
    fc.assert(
      fc.property(
        fc.double({ min: 0.3, max: 3, noNaN: true }),
        fc.double({ min: 0, max: 3.1, noNaN: true }),
        (spacing, angle) => {
          for (const point of hatchLines([square], spacing, angle).flat()) {
            expect(point.x).toBeGreaterThan(-1e-6);
            expect(point.x).toBeLessThan(10 + 1e-6);
            expect(point.y).toBeGreaterThan(-1e-6);
            expect(point.y).toBeLessThan(10 + 1e-6);
          }
        },
      ),
      { seed: 20260303 },
    );
  });
});
