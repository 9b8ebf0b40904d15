import { describe, expect, test } from 'vitest';
import {
  analyseItems,
  completeRows,
  itemDiscrimination,
  type Marks,
} from '../../../src/grading/index.ts';
import { seeded } from '../../helpers/seeded.ts';
import { LSAT_ROWS, randomMarks, TEN_BY_TEN } from './published-data.ts';

/** Twin: the correlation by its definition, summed over all pairs of people. */
function slowCorrelation(xs: readonly number[], ys: readonly number[]): number {
  let [xy, xx, yy] = [0, 0, 0];
  xs.forEach((x, i) => {
    xs.forEach((other, j) => {
      const dy = (ys[i] as number) - (ys[j] as number);
      xy += (x - other) * dy;
      xx += (x - other) ** 2;
      yy += dy ** 2;
    });
  });
  return xy / Math.sqrt(xx * yy);
}

describe('the figures of an item', () => {
  // published: R package ltm, descript(LSAT)
  test('count 924, 709, 553, 763 and 870 right of 1000 in the LSAT data', () => {
    const items = analyseItems(LSAT_ROWS);
    expect(items.map(({ right }) => right)).toEqual([924, 709, 553, 763, 870]);
    expect(items.map(({ asked }) => asked)).toEqual([1000, 1000, 1000, 1000, 1000]);
    expect(items.map(({ difficulty }) => difficulty)).toEqual([0.924, 0.709, 0.553, 0.763, 0.87]);
  });

  test('discriminate .11283 .15318 .17278 .14443 .12160 in the LSAT data', () => {
    const found = analyseItems(LSAT_ROWS).map(({ discrimination }) => discrimination?.toFixed(5));
    expect(found).toEqual(['0.11283', '0.15318', '0.17278', '0.14443', '0.12160']);
  });

  test('leave the item out of its own yardstick: with it in, item 1 would show .3620', () => {
    // R package ltm prints .3620 as the correlation "included" (from memory, computed the same)
    const totals = LSAT_ROWS.map((row) => row.reduce<number>((sum, mark) => sum + mark, 0));
    const first = LSAT_ROWS.map((row) => row[0] as number);
    const mean = (values: readonly number[]) => values.reduce((a, b) => a + b, 0) / values.length;
    const spread = (values: readonly number[]) =>
      Math.sqrt(mean(values.map((value) => (value - mean(values)) ** 2)));
    const included =
      (mean(first.map((mark, i) => mark * (totals[i] as number))) - mean(first) * mean(totals)) /
      (spread(first) * spread(totals));
    expect(included).toBeCloseTo(0.362, 4);
    expect(itemDiscrimination(LSAT_ROWS, 0)).toBeLessThan(0.2);
  });

  test.each([1, 2, 3])('equal the slow correlation on random marks, seed %d', (seed) => {
    const marks = randomMarks(seed, 40, 7);
    analyseItems(marks).forEach(({ discrimination }, item) => {
      const own = marks.map((row) => row[item] as number);
      const rest = marks.map((row) =>
        row.reduce<number>((sum, mark, i) => (i === item ? sum : sum + mark), 0),
      );
      expect(discrimination).toBeCloseTo(slowCorrelation(own, rest), 12);
    });
  });

  test('skip what was not asked, and compare shares where people were asked unlike numbers', () => {
    const marks: Marks = [
      [1, 1, 1],
      [1, 1, null],
      [0, 0, 1],
      [0, null, 0],
      [null, 1, 1],
    ];
    const [first] = analyseItems(marks);
    expect(first?.asked).toBe(4);
    expect(first?.difficulty).toBe(0.5);
    // own 1 1 0 0 against shares 1, 1, 1/2, 0
    expect(first?.discrimination).toBeCloseTo(slowCorrelation([1, 1, 0, 0], [1, 1, 0.5, 0]), 12);
  });

  test('are null where nothing can be said', () => {
    const [same, never] = analyseItems([
      [1, null, 0],
      [1, null, 1],
    ]);
    expect(same?.discrimination).toBeNull();
    expect(never?.difficulty).toBeNull();
    expect(never?.interval).toEqual({ low: 0, high: 1 });
    expect(itemDiscrimination([[1, 0]], 0)).toBeNull();
    expect(itemDiscrimination([[1], [0]], 0)).toBeNull();
  });

  test('turn round when an item is marked the wrong way, seed 4', () => {
    const marks = randomMarks(4, 60, 6);
    const wrong = marks.map((row) => row.map((m, i): 0 | 1 => (i === 2 ? (m === 1 ? 0 : 1) : m)));
    expect(itemDiscrimination(wrong, 2)).toBeCloseTo(-(itemDiscrimination(marks, 2) ?? 0), 12);
  });

  test('hold the difficulty in the interval, seed 5', () => {
    const next = seeded(5);
    const marks: Marks = Array.from({ length: 30 }, () =>
      Array.from({ length: 8 }, () => (next() < 0.2 ? null : next() < 0.7 ? 1 : 0)),
    );
    for (const { difficulty, interval } of analyseItems(marks)) {
      expect(interval.low).toBeLessThanOrEqual(difficulty ?? 0);
      expect(interval.high).toBeGreaterThanOrEqual(difficulty ?? 1);
    }
  });

  test('name what they refuse', () => {
    expect(() => analyseItems([])).toThrow('marks must have at least 1 rows of 1, not 0 of 0.');
    expect(() => analyseItems([[1, 0], [1]])).toThrow('rows of equal length; row 2 differs');
    expect(() => analyseItems([[2 as unknown as 1]])).toThrow('row 1, column 1 is 2');
  });
});

test('complete rows are those with nothing missing', () => {
  const marks: Marks = [
    [1, 0],
    [1, null],
    [0, 0],
  ];
  expect(completeRows(marks)).toEqual([
    [1, 0],
    [0, 0],
  ]);
  expect(completeRows(TEN_BY_TEN)).toHaveLength(10);
});
