/** Sum that keeps what rounding would drop (Kahan and Neumaier). */
export function sumOf(values: readonly number[]): number {
  let sum = 0;
  let lost = 0;
  for (const value of values) {
    const next = sum + value;
    lost += Math.abs(sum) >= Math.abs(value) ? sum - next + value : value - next + sum;
    sum = next;
  }
  return sum + lost;
}

/** Mean; NaN of nothing, so callers check for emptiness first. */
export function meanOf(values: readonly number[]): number {
  return sumOf(values) / values.length;
}

function sumOfSquares(values: readonly number[]): number {
  const mean = meanOf(values);
  return sumOf(values.map((value) => (value - mean) ** 2));
}

/**
 * Variance with the divisor n. Every reliability figure here uses this one divisor, for items and
 * totals alike: mixing n for the items with n - 1 for the totals inflates KR-20.
 */
export function varianceOf(values: readonly number[]): number {
  return sumOfSquares(values) / values.length;
}

/** Standard deviation with the divisor n - 1, for a few judges who stand for many; 2 or more. */
export function sampleDeviationOf(values: readonly number[]): number {
  return Math.sqrt(sumOfSquares(values) / (values.length - 1));
}

/** Pearson correlation, -1 to 1; null when either side has no spread. */
export function correlate(xs: readonly number[], ys: readonly number[]): number | null {
  const meanX = meanOf(xs);
  const meanY = meanOf(ys);
  const xx = sumOfSquares(xs);
  const yy = sumOfSquares(ys);
  // rounding leaves specks where there is no spread
  if (!(xx > 1e-20 * xs.length && yy > 1e-20 * ys.length)) return null;
  const xy = sumOf(xs.map((x, i) => (x - meanX) * ((ys[i] as number) - meanY)));
  return Math.max(-1, Math.min(1, xy / Math.sqrt(xx * yy)));
}
