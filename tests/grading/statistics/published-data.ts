import type { MarkPattern } from '../../../src/grading/index.ts';
import { seeded } from '../../helpers/seeded.ts';

/**
 * Law School Admission Test, section 6, five items, 1000 people: Bock and Lieberman 1970; also the
 * data set LSAT of the R package ltm. Counts of the patterns 00000 to 11111 in binary order, the
 * first item the leftmost.
 */
const LSAT_COUNTS = [
  3, 6, 2, 11, 1, 1, 3, 4, 1, 8, 0, 16, 0, 3, 2, 15, 10, 29, 14, 81, 3, 28, 15, 80, 16, 56, 21, 173,
  11, 61, 28, 298,
];

type Row = readonly (0 | 1)[];

export const LSAT_PATTERNS: readonly MarkPattern[] = LSAT_COUNTS.map((count, code) => ({
  count,
  marks: [16, 8, 4, 2, 1].map((bit): 0 | 1 => (code & bit ? 1 : 0)),
})).filter(({ count }) => count > 0);

export const LSAT_ROWS: readonly Row[] = LSAT_PATTERNS.flatMap(({ marks, count }) =>
  Array.from({ length: count }, () => marks),
);

/** Ten pupils, ten items: notes on reliability, East Carolina University. */
export const TEN_BY_TEN: readonly Row[] = [
  '1111110110',
  '1011011101',
  '1111011001',
  '0010001000',
  '0000010010',
  '1110111111',
  '1101110111',
  '1111111101',
  '0101111101',
  '1101101110',
].map((row) => [...row].map((mark): 0 | 1 => (mark === '1' ? 1 : 0)));

/** A grid of marks from a seed, with people and items that differ, so that figures exist. */
export function randomMarks(seed: number, people: number, items: number): Row[] {
  const next = seeded(seed);
  return Array.from({ length: people }, () => {
    const able = next();
    return Array.from({ length: items }, (_, i): 0 | 1 =>
      next() < 0.15 + 0.6 * able + (0.2 * i) / items ? 1 : 0,
    );
  });
}
