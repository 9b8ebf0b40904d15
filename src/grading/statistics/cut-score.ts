import { requireGrid, requireNumber } from './arguments.ts';
import { meanOf, sampleDeviationOf, sumOf } from './moments.ts';

export type ItemRating = {
  /** column of the item, from 0 */
  readonly item: number;
  readonly mean: number;
  /** standard deviation between judges, divisor judges - 1 */
  readonly deviation: number;
  readonly low: number;
  readonly high: number;
};

export type CutScore = {
  readonly judges: number;
  readonly items: number;
  /** points: mean over judges of the sum of their ratings, 0 to items */
  readonly cut: number;
  /** cut as a share of the items, 0 to 1 */
  readonly share: number;
  /** lowest whole total that is not below the cut */
  readonly passMark: number;
  /** each judge's own cut, in the order given */
  readonly sums: readonly number[];
  /** standard deviation of those sums, divisor judges - 1 */
  readonly deviation: number;
  /** standard error of the cut: deviation / sqrt(judges) */
  readonly error: number;
  /** in the order of the columns */
  readonly ratings: readonly ItemRating[];
};

/** A cut that should be whole may carry rounding from tenths. */
const ROUNDING = 1e-9;

/**
 * Modified Angoff cut. ratings[judge][item] is the chance, 0 to 1, that a person who is just good
 * enough gets the item right; two judges or more, one item or more. Method: Angoff 1971 as told in
 * BMC Medical Education 2016, s12909-016-0656-7; error of the cut by the central limit theorem:
 * MacCann and Stanley 2004 (Practical Assessment, Research and Evaluation 9(5)).
 */
export function angoffCut(ratings: readonly (readonly number[])[]): CutScore {
  const items = requireGrid('ratings', ratings, { rows: 2, columns: 1 });
  ratings.forEach((row, judge) => {
    row.forEach((rating, item) => {
      requireNumber(`the rating of judge ${judge + 1} for item ${item + 1}`, rating, 0, 1);
    });
  });
  const judges = ratings.length;
  const sums = ratings.map((row) => sumOf(row));
  const cut = meanOf(sums);
  const deviation = sampleDeviationOf(sums);
  return {
    judges,
    items,
    cut,
    share: cut / items,
    passMark: Math.ceil(cut - ROUNDING),
    sums,
    deviation,
    error: deviation / Math.sqrt(judges),
    ratings: Array.from({ length: items }, (_, item) => {
      const given = ratings.map((row) => row[item] as number);
      return {
        item,
        mean: meanOf(given),
        deviation: sampleDeviationOf(given),
        low: Math.min(...given),
        high: Math.max(...given),
      };
    }),
  };
}

/**
 * Items to talk over before a second round: the widest apart first, by standard deviation, then by
 * range, then in the order of the test. Items all judges rate alike are left out.
 */
export function mostDisputed(cut: CutScore, count: number): readonly ItemRating[] {
  requireNumber('count', count, 0, Number.MAX_SAFE_INTEGER);
  const apart = (rating: ItemRating) => rating.high - rating.low;
  return cut.ratings
    .filter((rating) => apart(rating) > ROUNDING)
    .toSorted((a, b) => b.deviation - a.deviation || apart(b) - apart(a) || a.item - b.item)
    .slice(0, count);
}
