import { digitsFor, type Figure, isPlainUnit } from '../../bench/index.ts';

/** How a unit is written after its number, where it is not written as it is named. */
const WRITTEN: Partial<Record<Figure['unit'], string>> = {
  deg: '°',
  '%': ' %',
  'N m': ' N·m',
  'mg/m3': ' mg/m³',
  'kg/m3': ' kg/m³',
};

/** Figures from here on are told without decimals: nobody can measure them. */
const WHOLE_FROM = 100;

/** Decimals a figure of this size is told with. */
export const usualDigits = ({ value, unit }: Figure): number =>
  unit !== 'mm' && Math.abs(value) >= WHOLE_FROM ? 0 : digitsFor(value);

/** A length that the fractions of a shop rule would lose most of: it is told in decimals in both units. */
export const isFineLength = ({ value, unit }: Figure): boolean =>
  unit === 'mm' && value !== 0 && Math.abs(value) < 1 && digitsFor(value) > 1;

/** A figure that is no length, in words: `62.8 m/s`, `8 s`, `36`. */
export function sayFigure(figure: Figure, digits = usualDigits(figure)): string {
  const { value, unit } = figure;
  const rounded = String(Number(value.toFixed(digits)));
  if (isPlainUnit(unit)) return rounded;
  return `${rounded}${WRITTEN[unit] ?? ` ${unit}`}`;
}
