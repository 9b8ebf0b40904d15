import { formatInchFraction, inchesToMm } from '../../geometry/index.ts';

const rounded = (value: number, digits: number): string => {
  const text = String(Number(value.toFixed(digits)));
  return text === '-0' ? '0' : text;
};

/** `5/16 in` when the value is a fraction of a rule, `0.313 in` when not. */
function sayInches(value: number): string {
  const parts = value * 64;
  const isFraction = Math.abs(parts - Math.round(parts)) < 1e-4;
  return `${isFraction ? formatInchFraction(inchesToMm(value)) : rounded(value, 3)} in`;
}

/** A signed value for a person: `7.5 mm`, `5/16 in`. The record keeps every digit; here two will do. */
export const sayMeasured = (value: number, unit: string): string =>
  unit === 'inch' ? sayInches(value) : `${rounded(value, 2)} ${unit}`;

/** An uncertainty or margin: `0.07 mm`, `0.003 in`. */
export const saySmall = (value: number, unit: string): string =>
  unit === 'inch' ? `${rounded(value, 3)} in` : `${rounded(value, 2)} ${unit}`;
