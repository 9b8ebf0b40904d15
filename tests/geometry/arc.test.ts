import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import {
  type Arc,
  arcCovers,
  arcDistanceRange,
  arcPoints,
  distance,
  distanceToSegment,
  halfChord,
} from '../../src/geometry/index.ts';

const SEED = 20261125;

describe('arcDistanceRange', () => {
  // Maths oracle: follows from the definitions of circle and distance.
  const quarter: Arc = { centre: { x: 0, y: 0 }, radius: 5, from: 0, to: Math.PI / 2 };

  it('gives sqrt(10) from (-3, 4) to a quarter arc of radius 5 (maths oracle)', () => {
    expect(arcDistanceRange(quarter, { x: -3, y: 4 }).least).toBeCloseTo(Math.sqrt(10), 12);
  });

  it('gives 5 from (6, 8) to a quarter arc of radius 5 (maths oracle)', () => {
    expect(arcDistanceRange(quarter, { x: 6, y: 8 }).least).toBeCloseTo(5, 12);
  });

  it('gives the radius, least and greatest, from the centre', () => {
    expect(arcDistanceRange(quarter, { x: 0, y: 0 })).toEqual({ least: 5, greatest: 5 });
  });

  it(`agrees with its slow twin, ten thousand points along the arc (seed ${SEED})`, () => {
    const coordinate = fc.double({ min: -300, max: 300, noNaN: true });
    fc.assert(
      fc.property(
        coordinate,
        coordinate,
        fc.double({ min: 1, max: 400, noNaN: true }),
        fc.double({ min: -Math.PI, max: Math.PI, noNaN: true }),
        fc.double({ min: 0.01, max: 2 * Math.PI, noNaN: true }),
        (x, y, radius, from, span) => {
          const arc: Arc = { centre: { x: 10, y: -20 }, radius, from, to: from + span };
          const point = { x, y };
          const sampled = arcPoints(arc, 10_000).map((p) => distance(p, point));
          const { least, greatest } = arcDistanceRange(arc, point);
          // between two samples the distance can dip by at most half a step of the arc
          const slack = (radius * span) / 10_000;
          expect(least).toBeLessThanOrEqual(Math.min(...sampled) + 1e-9);
          expect(least).toBeGreaterThan(Math.min(...sampled) - slack);
          expect(greatest).toBeGreaterThanOrEqual(Math.max(...sampled) - 1e-9);
          expect(greatest).toBeLessThan(Math.max(...sampled) + slack);
        },
      ),
      { seed: SEED, numRuns: 300 },
    );
  });
});

describe('arcCovers', () => {
  it('counts both ends, and angles a turn away', () => {
    const arc: Arc = { centre: { x: 0, y: 0 }, radius: 1, from: 0, to: 1 };
    expect(arcCovers(arc, 0)).toBe(true);
    expect(arcCovers(arc, 1)).toBe(true);
    expect(arcCovers(arc, 0.5 - 4 * Math.PI)).toBe(true);
    expect(arcCovers(arc, -0.01)).toBe(false);
    expect(arcCovers(arc, 1.01)).toBe(false);
  });
});

describe('plane geometry', () => {
  it('gives 4 from (5, 0) to the segment (0,0)-(3,4) (maths oracle)', () => {
    const segment = { from: { x: 0, y: 0 }, to: { x: 3, y: 4 } };
    expect(distanceToSegment({ x: 5, y: 0 }, segment)).toBeCloseTo(4, 12);
  });

  it('measures to the nearer end when the foot of the perpendicular falls outside', () => {
    const segment = { from: { x: 0, y: 0 }, to: { x: 3, y: 4 } };
    expect(distanceToSegment({ x: -3, y: -4 }, segment)).toBeCloseTo(5, 12);
    expect(distanceToSegment({ x: 6, y: 8 }, segment)).toBeCloseTo(5, 12);
    expect(distanceToSegment({ x: 3, y: 4 }, { from: { x: 0, y: 0 }, to: { x: 0, y: 0 } })).toBe(5);
  });

  it('gives a chord of 366.606 at R 200, 80 from the centre; 203.2 at R 127, 76.2 (maths oracle)', () => {
    expect(2 * halfChord(200, 80)).toBeCloseTo(366.606, 3);
    expect(2 * halfChord(127, 76.2)).toBeCloseTo(203.2, 9);
  });

  it('shows what vertex checks miss: an edge sampled on R + g loses (R + g)(1 - cos(step/2))', () => {
    // Maths oracle: R 200, gap 5; the chord between samples 1 and 5 degrees apart.
    const midChord = (step: number) => {
      const arc: Arc = {
        centre: { x: 0, y: 0 },
        radius: 205,
        from: 0,
        to: (step * Math.PI) / 180,
      };
      const [from, to] = arcPoints(arc, 1);
      return distanceToSegment({ x: 0, y: 0 }, { from: from!, to: to! }) - 200;
    };
    expect(midChord(1)).toBeCloseTo(4.992194, 6);
    expect(midChord(5)).toBeCloseTo(4.804885, 6);
  });
});
