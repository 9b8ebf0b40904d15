import Flatten from '@flatten-js/core';
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { knifeArcShare, knifeEdge, knifeEdgeExists, knifeGaps } from '../../src/bench/index.ts';
import { arcPoints, distance } from '../../src/geometry/index.ts';

const SEED = 4711;

type Case = {
  depth: number;
  radius: number;
  knife: { edgeRadius: number; reach: number; along: number; up: number };
};

/** Knives and blades of every size a bench takes, the edge always above the table. */
const cases: fc.Arbitrary<Case> = fc
  .record({
    radius: fc.double({ min: 75, max: 450, noNaN: true }),
    depthShare: fc.double({ min: 0.15, max: 0.9, noNaN: true }),
    over: fc.double({ min: 0.5, max: 60, noNaN: true }),
    reachShare: fc.double({ min: 0.2, max: 0.999, noNaN: true }),
    along: fc.double({ min: -20, max: 40, noNaN: true }),
    up: fc.double({ min: -40, max: 40, noNaN: true }),
  })
  .map(({ radius, depthShare, over, reachShare, along, up }) => ({
    radius,
    depth: radius * depthShare,
    knife: { edgeRadius: radius + over, reach: (radius + over) * reachShare, along, up },
  }))
  .filter(
    ({ knife, depth }) =>
      knifeEdgeExists(knife, depth) && Math.hypot(knife.along, knife.up) < knife.edgeRadius,
  );

const gapsOf = ({ knife, depth, radius }: Case) =>
  knifeGaps(knifeEdge(knife, depth), { x: 0, y: -depth }, radius);

describe('knifeGaps', () => {
  it('gives the difference of the radii everywhere when the edge is concentric (maths oracle)', () => {
    const gaps = gapsOf({
      depth: 80,
      radius: 200,
      knife: { edgeRadius: 205, reach: 190, along: 0, up: 0 },
    });
    expect(gaps.max).toBeCloseTo(5, 12);
    expect(gaps.min).toBeCloseTo(5, 12);
    expect(gaps.atTable).toBeCloseTo(5, 12);
  });

  it(`agrees with dense sampling of the edge (seed ${SEED})`, () => {
    fc.assert(
      fc.property(cases, (one) => {
        const axis = { x: 0, y: -one.depth };
        const sampled = arcPoints(knifeEdge(one.knife, one.depth), 5000).map(
          (p) => distance(p, axis) - one.radius,
        );
        const gaps = gapsOf(one);
        expect(gaps.max).toBeGreaterThanOrEqual(Math.max(...sampled) - 1e-9);
        expect(gaps.max).toBeLessThan(Math.max(...sampled) + 1e-3);
        expect(gaps.min).toBeLessThanOrEqual(Math.min(...sampled) + 1e-9);
        expect(gaps.min).toBeGreaterThan(Math.min(...sampled) - 1e-3);
        expect(gaps.atTable).toBeCloseTo(sampled[0] as number, 9);
      }),
      { seed: SEED, numRuns: 500 },
    );
  });

  it(`agrees with a general geometry library to 1e-6 mm on 1,000 benches (@flatten-js/core, seed ${SEED})`, () => {
    fc.assert(
      fc.property(cases, (one) => {
        const edge = knifeEdge(one.knife, one.depth);
        const centre = Flatten.point(edge.centre.x, edge.centre.y);
        const arc = new Flatten.Arc(centre, edge.radius, edge.from, edge.to, true);
        const [least] = Flatten.point(0, -one.depth).distanceTo(arc);
        expect(Math.abs(gapsOf(one).min - (least - one.radius))).toBeLessThan(1e-6);
      }),
      { seed: SEED, numRuns: 1000 },
    );
  });

  it(`never shrinks the greatest gap when the knife is moved away from the blade (seed ${SEED})`, () => {
    fc.assert(
      fc.property(cases, fc.double({ min: 0.001, max: 30, noNaN: true }), (one, away) => {
        const from = { ...one, knife: { ...one.knife, along: Math.abs(one.knife.along) } };
        const moved = { ...from, knife: { ...from.knife, along: from.knife.along + away } };
        fc.pre(Math.hypot(moved.knife.along, moved.knife.up) < moved.knife.edgeRadius);
        expect(gapsOf(moved).max).toBeGreaterThanOrEqual(gapsOf(from).max - 1e-9);
      }),
      { seed: SEED },
    );
  });

  it('scales: every length doubled doubles every gap', () => {
    fc.assert(
      fc.property(cases, (one) => {
        const twice: Case = {
          depth: one.depth * 2,
          radius: one.radius * 2,
          knife: {
            edgeRadius: one.knife.edgeRadius * 2,
            reach: one.knife.reach * 2,
            along: one.knife.along * 2,
            up: one.knife.up * 2,
          },
        };
        expect(gapsOf(twice).max).toBeCloseTo(2 * gapsOf(one).max, 6);
        expect(gapsOf(twice).min).toBeCloseTo(2 * gapsOf(one).min, 6);
      }),
      { seed: SEED },
    );
  });
});

describe('knifeArcShare', () => {
  const shareOf = ({ knife, depth, radius }: Case) =>
    knifeArcShare(knifeEdge(knife, depth), { x: 0, y: -depth }, radius);

  it('is 1 for a concentric edge 5 mm off that reaches the top, 0 for one 13 mm off', () => {
    const knife = { edgeRadius: 205, reach: 205, along: 0, up: 0 };
    expect(shareOf({ depth: 80, radius: 200, knife })).toBeCloseTo(1, 9);
    expect(shareOf({ depth: 80, radius: 200, knife: { ...knife, edgeRadius: 213 } })).toBe(0);
  });

  it('counts a concentric edge 12 mm off, at equality, and by angle when it stops short', () => {
    // Maths oracle: from asin(80/200) up to asin(150/212) of the way to 90 degrees.
    const knife = { edgeRadius: 212, reach: 150, along: 0, up: 0 };
    const table = Math.asin(80 / 200);
    const expected = (Math.asin(150 / 212) - table) / (Math.PI / 2 - table);
    expect(shareOf({ depth: 80, radius: 200, knife })).toBeCloseTo(expected, 9);
  });

  it(`agrees with its slow twin, rays from the axis every hundredth of a degree (seed ${SEED})`, () => {
    fc.assert(
      fc.property(cases, (one) => {
        const axis = { x: 0, y: -one.depth };
        const table = Math.asin(one.depth / one.radius);
        const span = Math.PI / 2 - table;
        const bins = 2000;
        const hit = new Uint8Array(bins);
        const points = arcPoints(knifeEdge(one.knife, one.depth), 20_000);
        for (const p of points) {
          if (distance(p, axis) - one.radius > 12) continue;
          const at = (Math.atan2(p.y - axis.y, p.x - axis.x) - table) / span;
          if (at >= 0 && at < 1) hit[Math.floor(at * bins)] = 1;
        }
        const counted = hit.reduce((sum, one) => sum + one, 0) / bins;
        expect(Math.abs(shareOf(one) - counted)).toBeLessThan(3 / bins);
      }),
      { seed: SEED, numRuns: 150 },
    );
  });
});
