import type { MeasureUnit } from '../../bench/index.ts';

/** Units of a number in a lesson. `1` and `count` are plain numbers. */
export type FigureUnit =
  | MeasureUnit
  | 'rpm'
  | 'm/min'
  | 'W'
  | 'kg'
  | 'J'
  | 'N m'
  | 'ms'
  | 'h'
  | '°C';

/** A number a lesson shows, taken from its bench and never typed. */
export type LessonFigure = { readonly value: number; readonly unit: FigureUnit };

export const isPlain = (unit: FigureUnit): boolean => unit === '1' || unit === 'count';

type Sign = '+' | '-' | '*' | '/';

/**
 * Two figures put together, with the unit that comes of it: like with like is added, a plain number
 * multiplies anything, like over like is a plain share.
 * @throws when the units do not go together, or the divisor is 0
 */
export function putTogether(one: LessonFigure, sign: Sign, other: LessonFigure): LessonFigure {
  const refuse = () =>
    new Error(`${one.unit} ${sign} ${other.unit} makes no figure: the units do not go together.`);
  const alike = one.unit === other.unit || (isPlain(one.unit) && isPlain(other.unit));
  if (sign === '+' || sign === '-') {
    if (!alike) throw refuse();
    return {
      value: sign === '+' ? one.value + other.value : one.value - other.value,
      unit: one.unit,
    };
  }
  if (sign === '*') {
    if (!isPlain(one.unit) && !isPlain(other.unit)) throw refuse();
    return { value: one.value * other.value, unit: isPlain(one.unit) ? other.unit : one.unit };
  }
  if (other.value === 0) throw new Error('A figure is divided by nothing.');
  if (isPlain(other.unit)) return { value: one.value / other.value, unit: one.unit };
  if (!alike) throw refuse();
  return { value: one.value / other.value, unit: '1' };
}
