import { describe, expect, test } from 'vitest';
import {
  arcDistanceRange,
  arcPoints,
  distance,
  distanceToSegment,
  formatInchFraction,
  formatLength,
  halfChord,
  inchesToMm,
  mmToInches,
} from '../../src/geometry/index.ts';

/** Plain geometry and units with answers known from elsewhere. */

describe('points, segments and arcs', () => {
  const origin = { x: 0, y: 0 };
  const quarter = { centre: origin, radius: 5, from: 0, to: Math.PI / 2 };

  test('(5, 0) lies 4 from the segment (0, 0) to (3, 4) [3-4-5 triangle]', () => {
    const segment = { from: origin, to: { x: 3, y: 4 } };
    expect(distanceToSegment({ x: 5, y: 0 }, segment)).toBeCloseTo(4, 12);
  });

  test('(-3, 4) lies sqrt 10 from a quarter arc of radius 5 [nearest point is its end (0, 5)]', () => {
    expect(arcDistanceRange(quarter, { x: -3, y: 4 }).least).toBeCloseTo(Math.sqrt(10), 12);
  });

  test('(6, 8) lies 5 from a quarter arc of radius 5 [3-4-5 triangle]', () => {
    expect(arcDistanceRange(quarter, { x: 6, y: 8 }).least).toBeCloseTo(5, 12);
  });

  test('half-chord of R 200 at height 80 is 183.303 [Pythagoras]', () => {
    expect(halfChord(200, 80)).toBeCloseTo(183.303, 3);
  });
});

describe('why an edge is measured as an arc and not at sampled points', () => {
  const shortfalls = [
    [1, 4.992194],
    [5, 4.804885],
  ] as const;
  for (const [step, least] of shortfalls) {
    test(`a gap of 5 round R 200 reads ${least} on chords of ${step} degree [(R + g) cos(step / 2) - R]`, () => {
      const arc = { centre: { x: 0, y: 0 }, radius: 205, from: 0, to: (90 * Math.PI) / 180 };
      const points = arcPoints(arc, 90 / step);
      const chords = points
        .slice(1)
        .map((to, i) => distanceToSegment(arc.centre, { from: points[i] ?? to, to }) - 200);
      expect(Math.min(...chords)).toBeCloseTo(least, 6);
      expect(arcDistanceRange(arc, arc.centre).least - 200).toBeCloseTo(5, 12);
    });
  }

  test('two vertices can clear a blade that the edge between them fouls [sagitta of a chord]', () => {
    const blade = 200;
    const [a, b] = [
      { x: 150, y: 140 },
      { x: 150, y: -140 },
    ];
    expect(Math.min(distance(a, { x: 0, y: 0 }), distance(b, { x: 0, y: 0 }))).toBeGreaterThan(
      blade,
    );
    expect(distanceToSegment({ x: 0, y: 0 }, { from: a, to: b })).toBeLessThan(blade);
  });
});

describe('inches', () => {
  const YARD = 'international yard and pound agreement 1959: 25.4 mm';
  const exact = [
    [0.25, 6.35],
    [0.5, 12.7],
    [2.5, 63.5],
    [10, 254],
    [36, 914.4],
  ] as const;
  for (const [inches, millimetres] of exact) {
    test(`${inches} in is ${millimetres} mm [${YARD}]`, () => {
      expect(inchesToMm(inches)).toBeCloseTo(millimetres, 12);
      expect(mmToInches(millimetres)).toBeCloseTo(inches, 12);
    });
  }

  const rule = [
    [6.35, '1/4'],
    [12.7, '1/2'],
    [63.5, '2 1/2'],
    [8, '5/16'],
    [3, '1/8'],
    [34.925, '1 3/8'],
    [254, '10'],
  ] as const;
  for (const [millimetres, text] of rule) {
    test(`${millimetres} mm reads ${text} on a rule in 64ths [${YARD}]`, () => {
      expect(formatInchFraction(millimetres)).toBe(text);
      expect(formatLength(millimetres, 'inch')).toBe(`${text} in`);
    });
  }
});
