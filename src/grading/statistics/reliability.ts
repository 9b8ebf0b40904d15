import { requireGrid, requireNumber, requireWhole } from './arguments.ts';
import { meanOf, sumOf, varianceOf } from './moments.ts';

/** One row for each attempt, one column for each item; nothing missing. */
export type Scores = readonly (readonly number[])[];

function column(scores: Scores, item: number): readonly number[] {
  return scores.map((row) => row[item] as number);
}

function checkScores(scores: Scores): number {
  const items = requireGrid('scores', scores, { rows: 2, columns: 2 });
  scores.forEach((row, person) => {
    const item = row.findIndex((score) => !Number.isFinite(score));
    if (item >= 0) {
      throw new RangeError(
        `scores must be finite numbers; row ${person + 1}, column ${item + 1} is ${row[item]}.`,
      );
    }
  });
  return items;
}

/** Mean and variance (divisor n) of the total scores, from 2 attempts and 2 items. */
export function totalScores(scores: Scores): {
  readonly totals: readonly number[];
  readonly mean: number;
  readonly variance: number;
} {
  checkScores(scores);
  const totals = scores.map((row) => sumOf(row));
  return { totals, mean: meanOf(totals), variance: varianceOf(totals) };
}

/**
 * Cronbach's alpha (Cronbach 1951): k/(k-1) (1 - sum of item variances / variance of totals), both
 * with the divisor n. At most 1, and negative when items pull against each other. Null when all
 * totals are equal. From 2 attempts and 2 items.
 */
export function cronbachAlpha(scores: Scores): number | null {
  const items = checkScores(scores);
  const { variance } = totalScores(scores);
  if (!(variance > 1e-20)) return null;
  const parts = sumOf(Array.from({ length: items }, (_, i) => varianceOf(column(scores, i))));
  return (items / (items - 1)) * (1 - parts / variance);
}

/** Alpha of the test without each item in turn; what rises above alpha hurts the test. 3 items. */
export function alphaWithout(scores: Scores): readonly (number | null)[] {
  requireGrid('scores', scores, { rows: 2, columns: 3 });
  const items = checkScores(scores);
  return Array.from({ length: items }, (_, left) =>
    cronbachAlpha(scores.map((row) => row.filter((_score, i) => i !== left))),
  );
}

/**
 * Kuder and Richardson's formula 20 (1937) for marks of 0 and 1: alpha with p(1 - p) as the
 * variance of an item. Divisor n throughout. Null when all totals are equal.
 */
export function kuderRichardson20(marks: readonly (readonly (0 | 1)[])[]): number | null {
  const items = checkScores(marks);
  if (marks.some((row) => row.some((mark) => mark !== 0 && mark !== 1))) {
    throw new RangeError('marks must be 0 or 1 for KR-20; use alpha for other scores.');
  }
  const { variance } = totalScores(marks);
  if (!(variance > 1e-20)) return null;
  const spread = Array.from({ length: items }, (_, i) => {
    const p = meanOf(column(marks, i));
    return p * (1 - p);
  });
  return (items / (items - 1)) * (1 - sumOf(spread) / variance);
}

/**
 * Kuder and Richardson's formula 21: KR-20 if all items were equally hard, from the mean and the
 * variance (divisor n) of the totals alone. items 2 or more, mean 0 to items. Never above KR-20 of
 * the same marks. Null when the variance is 0.
 */
export function kuderRichardson21(totals: {
  readonly items: number;
  readonly mean: number;
  readonly variance: number;
}): number | null {
  const { items, mean, variance } = totals;
  requireWhole('items', items, 2);
  requireNumber('mean', mean, 0, items);
  requireNumber('variance', variance, 0, (items * items) / 4);
  if (!(variance > 1e-20)) return null;
  return (items / (items - 1)) * (1 - (mean * (items - mean)) / (items * variance));
}

/**
 * Standard error of measurement in points: sd sqrt(1 - reliability). About two thirds of repeated
 * attempts by one person fall within one of it. A reliability below 0 counts as 0; above 1 throws.
 */
export function errorOfMeasurement(variance: number, reliability: number): number {
  requireNumber('variance', variance, 0, Number.MAX_VALUE);
  requireNumber('reliability', reliability, -Number.MAX_VALUE, 1);
  return Math.sqrt(variance * (1 - Math.max(0, reliability)));
}
