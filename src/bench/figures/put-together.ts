import { type Figure, type FigureUnit, isPlainUnit } from './figure.ts';

export type Sign = '+' | '-' | '*' | '/';

/** A number with the units it is made of, each with its power: mm2 while an area is on the way to a share. */
export type Amount = {
  readonly value: number;
  readonly powers: ReadonlyMap<FigureUnit, number>;
};

export const plainAmount = (value: number): Amount => ({ value, powers: new Map() });

export const amountOf = ({ value, unit }: Figure): Amount => ({
  value,
  powers: isPlainUnit(unit) ? new Map() : new Map([[unit, 1]]),
});

const say = (powers: Amount['powers']): string =>
  powers.size === 0
    ? 'a plain number'
    : [...powers].map(([unit, power]) => (power === 1 ? unit : `${unit}^${power}`)).join(' ');

const isAlike = (one: Amount['powers'], other: Amount['powers']): boolean =>
  one.size === other.size && [...one].every(([unit, power]) => other.get(unit) === power);

function times(one: Amount['powers'], other: Amount['powers'], way: 1 | -1): Amount['powers'] {
  const powers = new Map(one);
  for (const [unit, power] of other) {
    const now = (powers.get(unit) ?? 0) + way * power;
    if (now === 0) powers.delete(unit);
    else powers.set(unit, now);
  }
  return powers;
}

/**
 * Two amounts put together, with the unit that comes of it.
 * @throws Error in words when unlike things are added, or something is divided by nothing
 */
export function putTogether(one: Amount, sign: Sign, other: Amount): Amount {
  if (sign === '*')
    return { value: one.value * other.value, powers: times(one.powers, other.powers, 1) };
  if (sign === '/') {
    if (other.value === 0) throw new Error('something is divided by nothing');
    return { value: one.value / other.value, powers: times(one.powers, other.powers, -1) };
  }
  if (!isAlike(one.powers, other.powers)) {
    throw new Error(
      `${say(one.powers)} and ${say(other.powers)} cannot be ${sign === '+' ? 'added' : 'taken from each other'}`,
    );
  }
  const value = sign === '+' ? one.value + other.value : one.value - other.value;
  return { value, powers: one.powers };
}

/** @throws Error in words when what comes of a sum is in no unit a sentence can say, as mm2 */
export function figureOf({ value, powers }: Amount): Figure {
  const [only, ...more] = powers;
  if (only === undefined) return { value, unit: '1' };
  if (more.length > 0 || only[1] !== 1) {
    throw new Error(`it comes to ${say(powers)}, which is no unit a sentence can say`);
  }
  return { value, unit: only[0] };
}
