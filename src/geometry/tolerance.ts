/**
 * Comparisons at a limit. Published limits are stated in whole or tenth millimetres; binary
 * fractions are not exact (1.1 * 3 is not 3.3), so equality is meant to one millionth of the unit.
 */
export const TOLERANCE = 1e-6;

/** "not more than": holds at equality. */
export const atMost = (value: number, limit: number): boolean => value <= limit + TOLERANCE;
/** "at least": holds at equality. */
export const atLeast = (value: number, limit: number): boolean => value >= limit - TOLERANCE;
/** "less than", "thinner than": does not hold at equality. */
export const below = (value: number, limit: number): boolean => value < limit - TOLERANCE;
/** "more than", "thicker than": does not hold at equality. */
export const above = (value: number, limit: number): boolean => value > limit + TOLERANCE;
