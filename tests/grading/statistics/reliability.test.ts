import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import {
  alphaWithout,
  cronbachAlpha,
  errorOfMeasurement,
  kuderRichardson20,
  kuderRichardson21,
  type Scores,
  totalScores,
} from '../../../src/grading/index.ts';
import { LSAT_ROWS, randomMarks, TEN_BY_TEN } from './published-data.ts';

/** Twin: alpha from the whole covariance matrix, k/(k-1) (1 - trace / sum). */
function slowAlpha(scores: Scores): number {
  const k = scores[0]?.length ?? 0;
  const n = scores.length;
  const at = (person: number, item: number) => scores[person]?.[item] as number;
  let trace = 0;
  let whole = 0;
  for (let i = 0; i < k; i += 1) {
    for (let j = 0; j < k; j += 1) {
      let cross = 0;
      for (let a = 0; a < n; a += 1) {
        for (let b = 0; b < n; b += 1) cross += (at(a, i) - at(b, i)) * (at(a, j) - at(b, j));
      }
      whole += cross;
      if (i === j) trace += cross;
    }
  }
  return (k / (k - 1)) * (1 - trace / whole);
}

/** The slip: p (1 - p) has the divisor n, the variance of the totals n - 1. */
function mixedDivisors(marks: Scores): number {
  const { totals, variance } = totalScores(marks);
  const n = totals.length;
  const k = marks[0]?.length ?? 0;
  const honest = kuderRichardson20(marks as readonly (readonly (0 | 1)[])[]) ?? Number.NaN;
  const parts = (1 - (honest * (k - 1)) / k) * variance;
  return (k / (k - 1)) * (1 - parts / ((variance * n) / (n - 1)));
}

describe('KR-20 and alpha', () => {
  test('are .294997 for the LSAT data', () => {
    // R package ltm, cronbach.alpha(LSAT) .295; six digits by definition
    expect(kuderRichardson20(LSAT_ROWS)).toBeCloseTo(0.294997, 6);
    expect(cronbachAlpha(LSAT_ROWS)).toBeCloseTo(0.294997, 6);
  });

  test('without each LSAT item are .2754 .2376 .2168 .2459 .2663', () => {
    // R package ltm, descript(LSAT), "Excluding Item" (from memory, reproduced)
    const found = alphaWithout(LSAT_ROWS).map((alpha) => alpha?.toFixed(4));
    expect(found).toEqual(['0.2754', '0.2376', '0.2168', '0.2459', '0.2663']);
  });

  test('are .696347 for the ten by ten, and not the .737823 of mixed divisors', () => {
    // data: notes on reliability, East Carolina University
    expect(totalScores(TEN_BY_TEN)).toEqual({
      totals: [8, 7, 7, 2, 2, 9, 8, 9, 7, 7],
      mean: 6.6,
      variance: 5.84,
    });
    expect(kuderRichardson20(TEN_BY_TEN)).toBeCloseTo(0.696347, 6);
    expect(cronbachAlpha(TEN_BY_TEN)).toBeCloseTo(0.696347, 6);
    expect(mixedDivisors(TEN_BY_TEN)).toBeCloseTo(0.737823, 6);
  });

  test.each([11, 12, 13])('equal the covariance matrix and each other, seed %d', (seed) => {
    const marks = randomMarks(seed, 25, 6);
    expect(cronbachAlpha(marks)).toBeCloseTo(slowAlpha(marks), 12);
    expect(kuderRichardson20(marks)).toBeCloseTo(slowAlpha(marks), 12);
  });

  test('of parallel items reach 1 when the items are one item shifted', () => {
    fc.assert(
      fc.property(
        fc.uniqueArray(fc.integer({ min: -50, max: 50 }), { minLength: 2, maxLength: 12 }),
        fc.array(fc.integer({ min: -9, max: 9 }), { minLength: 2, maxLength: 6 }),
        (people, shifts) => {
          const scores = people.map((score) => shifts.map((shift) => score + shift));
          expect(cronbachAlpha(scores)).toBeCloseTo(1, 10);
        },
      ),
    );
  });

  test('never pass 1, and do not move when every score is stretched and shifted', () => {
    const grids = fc.integer({ min: 2, max: 5 }).chain((k) =>
      fc.array(fc.array(fc.integer({ min: 0, max: 9 }), { minLength: k, maxLength: k }), {
        minLength: 2,
        maxLength: 15,
      }),
    );
    fc.assert(
      fc.property(grids, (scores) => {
        const alpha = cronbachAlpha(scores);
        const moved = cronbachAlpha(scores.map((row) => row.map((score) => 3 * score - 7)));
        if (alpha === null) {
          expect(moved).toBeNull();
          return;
        }
        expect(alpha).toBeLessThanOrEqual(1 + 1e-12);
        expect(moved).toBeCloseTo(alpha, 9);
      }),
    );
  });

  test('are null when all totals are equal', () => {
    const opposed = [
      [1, 0],
      [0, 1],
    ] as const;
    expect(cronbachAlpha(opposed)).toBeNull();
    expect(kuderRichardson20(opposed)).toBeNull();
    expect(kuderRichardson21({ items: 2, mean: 1, variance: 0 })).toBeNull();
  });

  test('name what they refuse', () => {
    expect(() => cronbachAlpha([[1, 2]])).toThrow('at least 2 rows of 2, not 1 of 2');
    expect(() => cronbachAlpha([[1], [2]])).toThrow('at least 2 rows of 2, not 2 of 1');
    expect(() =>
      cronbachAlpha([
        [1, Number.NaN],
        [1, 2],
      ]),
    ).toThrow('row 1, column 2 is NaN');
    expect(() =>
      kuderRichardson20([
        [1, 2 as unknown as 1],
        [0, 1],
      ]),
    ).toThrow('0 or 1 for KR-20');
    expect(() => alphaWithout(TEN_BY_TEN.map((row) => row.slice(0, 2)))).toThrow('10 of 2');
  });
});

describe('KR-21', () => {
  test('is .684170 for ten items, mean 6.6 and variance 5.84', () => {
    // by definition: 10/9 (1 - 6.6 * 3.4 / (10 * 5.84))
    expect(kuderRichardson21({ items: 10, mean: 6.6, variance: 5.84 })).toBeCloseTo(0.68417, 6);
  });

  test.each([21, 22, 23, 24])('never passes KR-20 of the same marks, seed %d', (seed) => {
    const marks = randomMarks(seed, 30, 8);
    const { mean, variance } = totalScores(marks);
    const short = kuderRichardson21({ items: 8, mean, variance }) ?? Number.NaN;
    expect(short).toBeLessThanOrEqual((kuderRichardson20(marks) ?? Number.NaN) + 1e-12);
  });

  test('equals KR-20 when the items are equally hard', () => {
    const marks = [
      [1, 1, 0],
      [0, 1, 1],
      [1, 0, 1],
      [0, 0, 0],
    ] as const;
    const { mean, variance } = totalScores(marks);
    const full = kuderRichardson20(marks) ?? Number.NaN;
    expect(kuderRichardson21({ items: 3, mean, variance })).toBeCloseTo(full, 12);
  });

  test('names what it refuses', () => {
    const refuse = (items: number, mean: number, variance: number) => () =>
      kuderRichardson21({ items, mean, variance });
    expect(refuse(1, 0.5, 0.2)).toThrow('items must be a whole number 2 or more');
    expect(refuse(10, 11, 2)).toThrow('mean must be a number from 0 to 10');
    expect(refuse(10, 5, 26)).toThrow('variance must be a number from 0 to 25');
  });
});

describe('the standard error of measurement', () => {
  test('is sd sqrt(1 - r): 1.3317 points for the ten by ten', () => {
    // definition: sqrt(5.84 (1 - .6963470)) = sqrt(1.773333)
    expect(errorOfMeasurement(5.84, kuderRichardson20(TEN_BY_TEN) ?? 0)).toBeCloseTo(
      Math.sqrt(1.7733333),
      6,
    );
  });

  test('is 0 for a perfect test and the whole spread for a useless one', () => {
    expect(errorOfMeasurement(9, 1)).toBe(0);
    expect(errorOfMeasurement(9, 0)).toBe(3);
    expect(errorOfMeasurement(9, -0.4)).toBe(3);
    expect(() => errorOfMeasurement(9, 1.1)).toThrow('reliability must be a number');
    expect(() => errorOfMeasurement(-1, 0.5)).toThrow('variance must be a number');
  });
});
