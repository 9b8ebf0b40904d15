/**
 * A picture as a small grid of brightness, so blurred that another graphics library or another font
 * changes it little. Differences are kept, half a step of 255 each, as two hexadecimal digits.
 */
export const GRID = { across: 32, down: 20 } as const;

const STEP = 0.5;
/** Brightness under this is the noise of edges and shadows. */
const NOISE = 0.75;

export type Difference = readonly number[];

export const difference = (seen: readonly number[], before: readonly number[]): Difference =>
  seen.map((value, i) => value - (before[i] ?? 0));

export const encode = (values: Difference): string =>
  values
    .map((value) => Math.max(-127, Math.min(127, Math.round(value / STEP))) + 128)
    .map((byte) => byte.toString(16).padStart(2, '0'))
    .join('');

export const decode = (text: string): Difference =>
  (text.match(/../g) ?? []).map((pair) => (Number.parseInt(pair, 16) - 128) * STEP);

const kept = (value: number): number => (Math.abs(value) < NOISE ? 0 : value);
const sum = (values: readonly number[]): number => values.reduce((a, b) => a + Math.abs(b), 0);

/** How much there is to be seen: brightness over all cells of the grid. */
export const strength = (values: Difference): number => sum(values.map(kept));

/** 0 for the same look, 1 for one that is not there at all, up to 2 for another in another place. */
export function mismatch(seen: Difference, wanted: Difference): number {
  // as it would have been kept
  const now = decode(encode(seen));
  const apart = now.map((value, i) => kept(value) - kept(wanted[i] ?? 0));
  return sum(apart) / Math.max(1, strength(now), strength(wanted));
}
