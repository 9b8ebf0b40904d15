import { angoffCut, type ItemRating, mostDisputed } from '../../grading/index.ts';
import type { SlotKind } from '../blueprint/index.ts';
import type { RatingLine } from './rating-lines.ts';

/** Share of people, 0 to 1, by the id of a rating line. */
export type Ratings = Readonly<Record<string, number>>;

export type SettledMark = {
  /** whole points of 100 that pass: the cut, rounded up */
  readonly mark: number;
  /** points of 100 */
  readonly cut: number;
  /** points each trainer comes to, in the order given */
  readonly sums: readonly number[];
  /** standard deviation of those, and standard error of the cut, points */
  readonly deviation: number;
  readonly error: number;
  /** every line with its mean and spread */
  readonly lines: readonly (RatingLine & Omit<ItemRating, 'item'>)[];
  /** lines the trainers are furthest apart on, the furthest first */
  readonly disputed: readonly string[];
};

/** As many as can be talked over at one sitting. */
const DISPUTED = 3;
/** Rounding in the last bit must not raise the mark by a point. */
const ROUNDING = 1e-9;

/** Rates every line and no other, each from 0 to 1. */
export const ratesAll = (lines: readonly RatingLine[], ratings: Ratings): boolean =>
  Object.keys(ratings).length === lines.length &&
  lines.every(({ id }) => {
    const rating = ratings[id];
    return rating !== undefined && rating >= 0 && rating <= 1;
  });

/** Share of the whole score each kind of task would bring, 0 to 1; none goes below 0, as in the grade. */
function expectSlots(lines: readonly RatingLine[], ratings: Ratings): number[] {
  const slots = new Map<SlotKind, number>();
  for (const { id, slot, gain, loss } of lines) {
    const rating = ratings[id] ?? 0;
    slots.set(slot, (slots.get(slot) ?? 0) + gain * rating - loss * (1 - rating));
  }
  return [...slots.values()].map((points) => Math.min(1, Math.max(0, points / 100)));
}

/**
 * The pass mark by the modified Angoff method: what somebody only just good enough would score, as
 * each trainer expects it, and the mean of that over the trainers. Two or more; null of fewer.
 * @throws RangeError when somebody left a line out
 */
export function settleMark(
  lines: readonly RatingLine[],
  ratings: readonly Ratings[],
): SettledMark | null {
  if (ratings.length < 2) return null;
  if (!ratings.every((one) => ratesAll(lines, one))) {
    throw new RangeError('Every line must be rated, from 0 to 1.');
  }
  const points = angoffCut(ratings.map((one) => expectSlots(lines, one)));
  const asked = angoffCut(ratings.map((one) => lines.map(({ id }) => one[id] as number)));
  const cut = 100 * points.cut;
  return {
    mark: Math.min(100, Math.max(1, Math.ceil(cut - ROUNDING))),
    cut,
    sums: points.sums.map((sum) => 100 * sum),
    deviation: 100 * points.deviation,
    error: 100 * points.error,
    lines: asked.ratings.map(({ item, ...rating }) => ({
      ...(lines[item] as RatingLine),
      ...rating,
    })),
    disputed: mostDisputed(asked, DISPUTED).map(({ item }) => (lines[item] as RatingLine).id),
  };
}
