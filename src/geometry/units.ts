/**
 * Units as types. A length in millimetres and an angle in radians are both numbers at run time,
 * but the compiler will not let one stand where the other belongs. Every conversion lives here.
 */

declare const unit: unique symbol;
type Unit<Name extends string> = number & { readonly [unit]: Name };

export type Millimetres = Unit<'mm'>;
export type Radians = Unit<'rad'>;
export type Degrees = Unit<'deg'>;
/** The 3D scene's unit: one scene unit is one metre. */
export type Metres = Unit<'m'>;

export const mm = (value: number): Millimetres => value as Millimetres;
export const radians = (value: number): Radians => value as Radians;
export const degrees = (value: number): Degrees => value as Degrees;

/** Exact by the international yard and pound agreement of 1959. */
export const MM_PER_INCH = 25.4;

export const degreesToRadians = (angle: number): Radians => ((angle * Math.PI) / 180) as Radians;
export const radiansToDegrees = (angle: number): Degrees => ((angle * 180) / Math.PI) as Degrees;
export const mmToMetres = (length: number): Metres => (length / 1000) as Metres;
export const mmToInches = (length: number): number => length / MM_PER_INCH;
export const inchesToMm = (length: number): Millimetres => (length * MM_PER_INCH) as Millimetres;

/** How lengths are shown to a person: millimetres, or inches with a fraction as on a shop rule. */
export type LengthUnit = 'mm' | 'inch';

const greatestCommonDivisor = (a: number, b: number): number =>
  b === 0 ? a : greatestCommonDivisor(b, a % b);

/**
 * A length in inches as a shop rule shows it, to the nearest 1/64: `1 3/8`, `0`, `-5/64`.
 * @param length millimetres
 * @param finest the finest division of the rule, a power of two (default 64)
 */
export function formatInchFraction(length: number, finest = 64): string {
  const parts = Math.round(Math.abs(mmToInches(length)) * finest);
  const whole = Math.floor(parts / finest);
  const rest = parts % finest;
  const sign = length < 0 && parts > 0 ? '-' : '';
  if (rest === 0) return `${sign}${whole}`;
  const divisor = greatestCommonDivisor(rest, finest);
  const fraction = `${rest / divisor}/${finest / divisor}`;
  return whole === 0 ? `${sign}${fraction}` : `${sign}${whole} ${fraction}`;
}

/**
 * A length for a person, with its unit: `7.5 mm` or `19/64 in`.
 * @param length millimetres
 * @param digits decimals in millimetres (default 1); a trailing `.0` is dropped
 */
export function formatLength(length: number, shownIn: LengthUnit, digits = 1): string {
  if (shownIn === 'inch') return `${formatInchFraction(length)} in`;
  const rounded = Number(length.toFixed(digits));
  // -0 would read as a negative length
  return `${rounded === 0 ? 0 : rounded} mm`;
}
