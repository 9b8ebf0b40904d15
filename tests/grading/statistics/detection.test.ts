import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { type DetectionCounts, measureDetection } from '../../../src/grading/index.ts';

const counted = (hits: number, signals: number, falseAlarms: number, noise: number) =>
  ({ hits, signals, falseAlarms, noise }) satisfies DetectionCounts;

const anyCounts = fc
  .tuple(fc.integer({ min: 1, max: 60 }), fc.integer({ min: 1, max: 60 }))
  .chain(([signals, noise]) =>
    fc.record({
      hits: fc.integer({ min: 0, max: signals }),
      signals: fc.constant(signals),
      falseAlarms: fc.integer({ min: 0, max: noise }),
      noise: fc.constant(noise),
    }),
  );

/** Twin of the error: the spread of d' over every outcome of two binomials. */
function slowSpread(h: number, f: number, n: number): number {
  const chances = (p: number) => {
    const all = [(1 - p) ** n];
    for (let x = 1; x <= n; x += 1) {
      all.push(((all[x - 1] as number) * (n - x + 1) * p) / (x * (1 - p)));
    }
    return all;
  };
  let [mean, square] = [0, 0];
  chances(h).forEach((hit, hits) => {
    chances(f).forEach((alarm, alarms) => {
      const { sensitivity } = measureDetection(counted(hits, n, alarms, n)) ?? { sensitivity: 0 };
      mean += hit * alarm * sensitivity;
      square += hit * alarm * sensitivity ** 2;
    });
  });
  return Math.sqrt(square - mean ** 2);
}

describe("d', c and beta", () => {
  test('are 1.805952, beta 1.981 for H .7 and F .1 without correction', () => {
    // published example of the yes/no task; c by definition -(z(.7) + z(.1))/2
    const found = measureDetection(counted(7, 10, 1, 10), 'none');
    expect(found?.sensitivity).toBeCloseTo(1.805952, 6);
    expect(found?.beta).toBeCloseTo(1.981, 3);
    expect(found?.criterion).toBeCloseTo(0.378576, 6);
  });

  test('are 2.681 for H .85 and F .05', () => {
    expect(measureDetection(counted(17, 20, 1, 20), 'none')?.sensitivity).toBeCloseTo(2.681, 3);
  });

  test('are 1.002793 for 82 and 46 of 100, with +.5 and +1', () => {
    // R package statpsych, function signal
    const found = measureDetection(counted(82, 100, 46, 100));
    expect(found?.sensitivity).toBeCloseTo(1.002793, 6);
    expect(found?.hitRate).toBeCloseTo(82.5 / 101, 12);
    expect(found?.falseAlarmRate).toBeCloseTo(46.5 / 101, 12);
  });

  test('stay finite with the correction and are null without, at a perfect score', () => {
    const perfect = counted(5, 5, 0, 20);
    expect(measureDetection(perfect, 'none')).toBeNull();
    expect(measureDetection(counted(0, 5, 3, 20), 'none')).toBeNull();
    expect(measureDetection(perfect)?.sensitivity).toBeGreaterThan(2);
  });

  test('give nothing to naming everything or nothing when the correction is proportional', () => {
    fc.assert(
      fc.property(fc.integer({ min: 1, max: 99 }), fc.integer({ min: 1, max: 99 }), (s, n) => {
        const all = measureDetection(counted(s, s, n, n), 'proportional');
        const none = measureDetection(counted(0, s, 0, n), 'proportional');
        expect(all?.sensitivity).toBeCloseTo(0, 10);
        expect(none?.sensitivity).toBeCloseTo(0, 10);
        expect(all?.criterion).toBeLessThan(0);
        expect(none?.criterion).toBeGreaterThan(0);
      }),
    );
  });

  test('flatter silence with the log-linear correction when faults are few', () => {
    // 3 faults, 40 things in order, nothing named: z(.5/4) - z(.5/41)
    expect(measureDetection(counted(0, 3, 0, 40))?.sensitivity).toBeCloseTo(1.1006, 3);
    expect(measureDetection(counted(3, 3, 40, 40))?.sensitivity).toBeCloseTo(-1.1006, 3);
  });

  test('do not depend on which correction when faults and the rest are equally many', () => {
    const counts = counted(7, 12, 2, 12);
    expect(measureDetection(counts, 'proportional')).toEqual(measureDetection(counts));
  });

  test('rise with a hit, fall with a false alarm, and turn over when the answers do', () => {
    fc.assert(
      fc.property(anyCounts, fc.constantFrom('log-linear', 'proportional'), (counts, rule) => {
        const here = measureDetection(counts, rule)?.sensitivity ?? Number.NaN;
        const { hits, signals, falseAlarms, noise } = counts;
        if (hits < signals) {
          const more = measureDetection({ ...counts, hits: hits + 1 }, rule);
          expect(more?.sensitivity).toBeGreaterThan(here);
        }
        if (falseAlarms < noise) {
          const more = measureDetection({ ...counts, falseAlarms: falseAlarms + 1 }, rule);
          expect(more?.sensitivity).toBeLessThan(here);
        }
        const turned = measureDetection(
          counted(signals - hits, signals, noise - falseAlarms, noise),
          rule,
        );
        expect(turned?.sensitivity).toBeCloseTo(-here, 9);
      }),
    );
  });

  test("hold to ln beta = d' c", () => {
    fc.assert(
      fc.property(anyCounts, (counts) => {
        const found = measureDetection(counts);
        expect(Math.log(found?.beta ?? 0)).toBeCloseTo(
          (found?.sensitivity ?? 0) * (found?.criterion ?? 0),
          9,
        );
      }),
    );
  });

  test.each([
    [0.8, 0.2],
    [0.7, 0.3],
    [0.6, 0.1],
  ])('have the spread of all outcomes of 150 trials at H %d, F %d within a twentieth', (h, f) => {
    const n = 150;
    const stated = measureDetection(counted(h * n, n, f * n, n))?.error ?? 0;
    expect(Math.abs(stated / slowSpread(h, f, n) - 1)).toBeLessThan(0.05);
  });

  test('name what they refuse', () => {
    expect(() => measureDetection(counted(6, 5, 0, 5))).toThrow('hits must be a whole number');
    expect(() => measureDetection(counted(0, 0, 0, 5))).toThrow('signals must be a whole number');
    expect(() => measureDetection(counted(1, 5, 0, 0))).toThrow('noise must be a whole number');
    expect(() => measureDetection(counted(1, 5, 9, 5))).toThrow('falseAlarms must be');
  });
});
