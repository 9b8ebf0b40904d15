import type { MeasureUnit } from '../measures/index.ts';

/** Units a figure may have. `1` and `count` are plain numbers; the others are written after it. */
export type FigureUnit =
  | Exclude<MeasureUnit, 'yes/no' | 'word'>
  | 'rpm'
  | 'm/min'
  | 'W'
  | 'kg'
  | 'kg/m3'
  | 'J'
  | 'N m'
  | 'ms'
  | 'dB';

/** A number taken from a bench, with its unit. Lengths are in mm, angles in degrees. */
export type Figure = { readonly value: number; readonly unit: FigureUnit };

export const isPlainUnit = (unit: FigureUnit): boolean => unit === '1' || unit === 'count';

/** Most decimals a figure is told with. */
const FINEST = 3;
/** Share of a figure that rounding may take from it before one more decimal is shown. */
const ROUNDED_AWAY = 0.02;

/**
 * Decimals that tell a figure: one, and more where one would take too much from a small figure, as
 * from a chip of 0.07 mm.
 */
export function digitsFor(value: number): number {
  let digits = 1;
  while (
    digits < FINEST &&
    Math.abs(Number(value.toFixed(digits)) - value) > ROUNDED_AWAY * Math.abs(value)
  ) {
    digits += 1;
  }
  return digits;
}
