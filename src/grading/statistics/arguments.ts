/**
 * Guards on what a caller hands over. Each throws a RangeError of one sentence that names the
 * value and the allowed range; a figure that is merely undefined (no spread, say) is null instead.
 */

export function requireNumber(name: string, value: number, low: number, high: number): void {
  if (!(value >= low && value <= high)) {
    throw new RangeError(`${name} must be a number from ${low} to ${high}, not ${value}.`);
  }
}

export function requireWhole(name: string, value: number, low: number, high = Infinity): void {
  if (!Number.isSafeInteger(value) || value < low || value > high) {
    const range = high === Infinity ? `${low} or more` : `from ${low} to ${high}`;
    throw new RangeError(`${name} must be a whole number ${range}, not ${value}.`);
  }
}

/** At least `rows` rows, all as long as the first, at least `columns` long; returns that length. */
export function requireGrid(
  name: string,
  grid: readonly (readonly unknown[])[],
  { rows, columns }: { readonly rows: number; readonly columns: number },
): number {
  const width = grid[0]?.length ?? 0;
  if (grid.length < rows || width < columns) {
    throw new RangeError(
      `${name} must have at least ${rows} rows of ${columns}, not ${grid.length} of ${width}.`,
    );
  }
  const odd = grid.findIndex((row) => row.length !== width);
  if (odd >= 0) {
    throw new RangeError(`${name} must have rows of equal length; row ${odd + 1} differs.`);
  }
  return width;
}
