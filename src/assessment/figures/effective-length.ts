/**
 * How many right-or-wrong questions would measure as surely as this test does. A test whose parts earn
 * points in part has no length of its own; this one makes KR-21 come out as its reliability, and lets
 * the model of decision consistency be used: Livingston and Lewis 1995 (Journal of Educational
 * Measurement 32, 179), from memory; that KR-21 comes out follows from the formula and is tested.
 * @param test mean as a share of all points, 0 to 1; variance of that share, divisor n; reliability
 * @returns a whole number of 2 or more; null where reliability or spread tell nothing
 */
export function effectiveLength(test: {
  readonly mean: number;
  readonly variance: number;
  readonly reliability: number;
}): number | null {
  const { mean, variance, reliability } = test;
  if (!(variance > 0) || !(reliability > 0) || !(reliability < 1)) return null;
  const length = (mean * (1 - mean) - reliability * variance) / (variance * (1 - reliability));
  return Number.isFinite(length) && length >= 1.5 ? Math.round(length) : null;
}
