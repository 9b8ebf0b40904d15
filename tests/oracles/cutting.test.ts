import { describe, expect, test } from 'vitest';
import { type Bench, measureBench } from '../../src/bench/index.ts';
import { inchesToMm } from '../../src/geometry/index.ts';
import { makeBench } from '../helpers/bench.ts';

/** Speeds, angles and chords worked out elsewhere, against the measures of a bench. */

/** A bench with blade radius R, arbor depth a and stock t; the knife follows the blade. */
function benchOf(radius: number, depth: number, stock: number, teeth = 40): Bench {
  return makeBench({
    blade: { diameter: 2 * radius, teeth },
    arbor: { depth, largestBlade: 2 * radius },
    knife: { edgeRadius: radius + 5, along: 0, up: 0, reach: radius - 2 },
    job: { stock: { thickness: stock } },
  });
}

function speedOf(diameter: number, speed: number): number {
  const bench = makeBench({
    blade: { diameter, maxSpeed: 20_000 },
    arbor: { depth: diameter / 4, speed, largestBlade: diameter },
    knife: { edgeRadius: diameter / 2 + 5, along: 0, up: 0, reach: diameter / 2 - 2 },
  });
  return measureBench(bench)['blade.rimSpeed'] as number;
}

describe('rim speed', () => {
  const cases = [
    ['300 mm at 4000 rpm is 62.83 m/s', 300, 4000, 62.83, 2, 'limits check case 9'],
    ['250 mm at 2850 rpm is 37.31 m/s', 250, 2850, 37.31, 2, 'limits check case 9'],
    [
      '10 in at 3450 rpm is 45.88 m/s',
      inchesToMm(10),
      3450,
      45.88,
      2,
      'published table, 9032 ft/min',
    ],
    ['250 mm at 4736.5 rpm is 62 m/s', 250, 4736.5, 62, 2, 'inputs of BioResources 2016'],
    ['400 mm at 3000 rpm is 62.832 m/s', 400, 3000, 62.832, 3, 'pi D n'],
    ['500 mm at 2000 rpm is 52.360 m/s', 500, 2000, 52.36, 3, 'pi D n'],
  ] as const;
  for (const [says, diameter, speed, expected, digits, source] of cases) {
    test(`${says} [${source}]`, () => {
      expect(speedOf(diameter, speed)).toBeCloseTo(expected, digits);
    });
  }

  test('the smallest blade allowed runs at 0.60 of the speed of the largest [HSE WIS16 rev 2]', () => {
    expect(speedOf(300, 3000) / speedOf(500, 3000)).toBeCloseTo(0.6, 12);
  });

  test('36 in at 1000 rpm is 9425 ft/min, not the 9000 of an old table that takes 3 for pi [saw-makers table, from memory]', () => {
    const feetPerMinute = (speedOf(inchesToMm(36), 1000) * 60_000) / (12 * 25.4);
    expect(feetPerMinute).toBeCloseTo(9425, 0);
    expect(feetPerMinute).not.toBeCloseTo(9000, -2);
  });
});

describe('entry angle and teeth in the cut', () => {
  const rows = [
    [200, 80, 100, 40, 25.8419, 4.5089],
    [200, 80, 50, 40, 49.4584, 1.8848],
    [200, 130, 50, 40, 25.8419, 2.6241],
    [127, 76.2, 38, 24, 25.9452, 1.8123],
  ] as const;
  for (const [radius, depth, stock, teeth, angle, count] of rows) {
    const says = `R ${radius}, a ${depth}, t ${stock}`;
    test(`${says}: front teeth enter at ${angle} degrees [cos phi = (a + t) / R]`, () => {
      const measures = measureBench(benchOf(radius, depth, stock, teeth));
      expect(measures['blade.entryAngle']).toBeCloseTo(angle, 4);
    });
    test(`${says}, ${teeth} teeth: ${count} in the cut [z (phi out - phi in) / 2 pi]`, () => {
      const measures = measureBench(benchOf(radius, depth, stock, teeth));
      expect(measures['blade.teethInCut']).toBeCloseTo(count, 4);
    });
  }

  const shares = [
    [0.05, 18.195],
    [0.1, 25.842],
    [0.2, 36.87],
    [0.5, 60],
  ] as const;
  for (const [share, angle] of shares) {
    test(`a blade ${share} R above the stock meets it at ${angle} degrees [cos phi = 1 - p / R]`, () => {
      const stock = 40;
      const bench = benchOf(200, 200 - stock - 200 * share, stock);
      expect(measureBench(bench)['blade.entryAngle']).toBeCloseTo(angle, 3);
    });
  }

  test('raising the blade makes the same board meet it more steeply, with fewer teeth in it [rows 2 and 3]', () => {
    const high = measureBench(benchOf(200, 80, 50));
    const low = measureBench(benchOf(200, 130, 50));
    expect(Number(high['blade.entryAngle'])).toBeGreaterThan(Number(low['blade.entryAngle']));
    expect(Number(high['blade.teethInCut'])).toBeLessThan(Number(low['blade.teethInCut']));
  });
});

describe('chord at the table', () => {
  const chords = [
    [200, 80, 366.606],
    [127, 76.2, 203.2],
  ] as const;
  for (const [radius, depth, chord] of chords) {
    test(`R ${radius}, a ${depth}: teeth stand over ${chord} mm of table [2 sqrt(R^2 - a^2)]`, () => {
      const bench = benchOf(radius, depth, 20);
      const overrun = Number(measureBench(bench)['fence.overrun']);
      expect(2 * (overrun - bench.fence.end)).toBeCloseTo(chord, 3);
    });
  }
});
