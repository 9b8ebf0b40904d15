/** Which end of a limit a value fails: below the least, above the greatest, or not the word wanted. */
export type LimitEnd = 'min' | 'max' | 'word';

/** A `must` decides whether a bench may run; a `should` is shown and lowers the score. */
export type LimitGrade = 'must' | 'should';

/** Failed ends of every measure, as bits. A measure that fails nowhere is not in it. */
export type FailedEnds = ReadonlyMap<string, number>;

const BIT: Readonly<Record<LimitEnd, number>> = { min: 1, max: 2, word: 4 };
const SHOULD_SHIFT = 3;

export const NOTHING_FAILED: FailedEnds = new Map();

export const failedBit = (end: LimitEnd, grade: LimitGrade): number =>
  grade === 'must' ? BIT[end] : BIT[end] << SHOULD_SHIFT;

/**
 * The bits a condition `outside` looks for.
 * @param weakest `must` when a failed `should` does not count, as for a critical fault
 */
export function failedMask(end: 'min' | 'max' | 'any', weakest: LimitGrade): number {
  const must = end === 'any' ? BIT.min | BIT.max | BIT.word : BIT[end];
  return weakest === 'must' ? must : must | (must << SHOULD_SHIFT);
}
