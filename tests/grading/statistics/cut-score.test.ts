import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { angoffCut, mostDisputed } from '../../../src/grading/index.ts';

/** Four judges, five items; sums 3.5, 3.6, 3.45, 3.45 by hand. */
const JUDGES = [
  [0.6, 0.7, 0.5, 0.8, 0.9],
  [0.7, 0.7, 0.6, 0.75, 0.85],
  [0.5, 0.65, 0.55, 0.8, 0.95],
  [0.65, 0.75, 0.45, 0.7, 0.9],
];

const panels = fc.integer({ min: 1, max: 8 }).chain((items) =>
  fc.array(
    fc.array(
      fc.integer({ min: 0, max: 20 }).map((n) => n / 20),
      {
        minLength: items,
        maxLength: items,
      },
    ),
    { minLength: 2, maxLength: 7 },
  ),
);

describe('the modified Angoff cut', () => {
  test('is 3.5 with standard deviation .070711 and error .035355 for the four judges', () => {
    // from the definition: squares .0 .01 .0025 .0025 over 3
    const cut = angoffCut(JUDGES);
    expect(cut.cut).toBeCloseTo(3.5, 12);
    expect(cut.deviation).toBeCloseTo(0.070711, 6);
    expect(cut.error).toBeCloseTo(0.070711 / 2, 6);
    expect(cut.share).toBeCloseTo(0.7, 12);
    cut.sums.forEach((sum, i) => {
      expect(sum).toBeCloseTo([3.5, 3.6, 3.45, 3.45][i] as number, 12);
    });
  });

  test('passes 4 of 5 at 3.5, and 55 of 100 at 55', () => {
    expect(angoffCut(JUDGES).passMark).toBe(4);
    // .55 is stored a little high: a hundred of them add to 55.00000000000001
    const even = [Array(100).fill(0.55), Array(100).fill(0.55)];
    expect(angoffCut(even).cut).toBeGreaterThan(55);
    expect(angoffCut(even).passMark).toBe(55);
  });

  test('finds the item the judges differ on most', () => {
    // by hand: sums of squares .021875, .005, .0125, .006875, .005 over 3
    const disputed = mostDisputed(angoffCut(JUDGES), 3);
    expect(disputed.map(({ item }) => item)).toEqual([0, 2, 3]);
    expect(disputed[0]?.deviation).toBeCloseTo(Math.sqrt(0.021875 / 3), 12);
    expect(disputed[0]).toMatchObject({ low: 0.5, high: 0.7 });
  });

  test('leaves out items rated alike, and orders equals by place', () => {
    const cut = angoffCut([
      [0.5, 0.2, 0.4],
      [0.5, 0.4, 0.6],
    ]);
    expect(mostDisputed(cut, 9).map(({ item }) => item)).toEqual([1, 2]);
    expect(mostDisputed(cut, 0)).toEqual([]);
  });

  test('equals the sum of the mean ratings, whichever way it is added', () => {
    fc.assert(
      fc.property(panels, (ratings) => {
        const cut = angoffCut(ratings);
        const byItem = cut.ratings.reduce((sum, { mean }) => sum + mean, 0);
        expect(cut.cut).toBeCloseTo(byItem, 10);
        expect(cut.cut).toBeGreaterThanOrEqual(Math.min(...cut.sums) - 1e-9);
        expect(cut.cut).toBeLessThanOrEqual(Math.max(...cut.sums) + 1e-9);
        expect(cut.passMark).toBeGreaterThanOrEqual(cut.cut - 1e-9);
        expect(cut.passMark - 1).toBeLessThan(cut.cut);
        for (const { low, mean, high } of cut.ratings) {
          expect(mean).toBeGreaterThanOrEqual(low - 1e-9);
          expect(mean).toBeLessThanOrEqual(high + 1e-9);
        }
      }),
    );
  });

  test('does not move, and is surer by the root of five, when every judge comes four times over', () => {
    const many = angoffCut([...JUDGES, ...JUDGES, ...JUDGES, ...JUDGES]);
    expect(many.cut).toBeCloseTo(3.5, 12);
    // 4 SS / 15 over 16 against SS / 3 over 4: the root of .05
    expect(many.error / angoffCut(JUDGES).error).toBeCloseTo(Math.sqrt(0.2), 9);
  });

  test('names what it refuses', () => {
    expect(() => angoffCut([[0.5]])).toThrow('at least 2 rows of 1, not 1 of 1');
    expect(() => angoffCut([[0.5], [1.2]])).toThrow(
      'the rating of judge 2 for item 1 must be a number from 0 to 1, not 1.2.',
    );
    expect(() => mostDisputed(angoffCut(JUDGES), -1)).toThrow('count must be');
  });
});
