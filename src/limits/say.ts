import { INSTRUMENTS, type MeasureUnit } from '../bench/index.ts';
import { formatLength, type LengthUnit, mmToInches } from '../geometry/index.ts';
import type { Result } from './judge.ts';
import type { Limit, Source } from './limit.ts';
import { settlesWith } from './settle-with.ts';

/** How a figure was seen, in the words shown beside every result. */
export const SAY_SEEN: Readonly<Record<Source['seen'], string>> = {
  primary: 'read in the text itself',
  secondary: 'read in a text that quotes it',
  memory: 'from memory, check before use',
  practice: 'common practice, no published source',
};

/** `HSE, circular saw bench page, knife, 2013 (read in the text itself)`. */
export function saySource(source: Source): string {
  if (source.seen === 'practice') return SAY_SEEN.practice;
  const where = [source.document, source.clause, source.year].filter((part) => part !== undefined);
  return `${where.join(', ')} (${SAY_SEEN[source.seen]})`;
}

/** A value with its unit, for a person: `7.5 mm`, `9.8 s`, `yes`, `enclosed`. */
export function sayValue(value: Result['value'], unit: MeasureUnit, shownIn: LengthUnit): string {
  if (value === null) return 'none';
  if (typeof value === 'boolean') return value ? 'yes' : 'no';
  if (typeof value === 'string') return value;
  if (unit === 'mm') return formatLength(value, shownIn, 2);
  const rounded = String(Number(value.toFixed(3)));
  return unit === '1' || unit === 'count' ? rounded : `${rounded} ${unit}`;
}

/** What a limit asks of this bench: `at least 3 mm and at most 8 mm`, `yes`, `one of: enclosed`. */
export function sayLimit(
  limit: Limit,
  { min, max }: Pick<Result, 'min' | 'max'>,
  shownIn: LengthUnit,
): string {
  const { wanted, unit } = limit;
  if (wanted.kind === 'fitted') return wanted.fitted ? 'fitted' : 'not fitted';
  if (wanted.kind === 'word') {
    return wanted.allowed.map((word) => sayValue(word, unit, shownIn)).join(' or ');
  }
  const ends: string[] = [];
  if (min !== null) {
    ends.push(`${wanted.minInclusive ? 'at least' : 'more than'} ${sayValue(min, unit, shownIn)}`);
  }
  if (max !== null) {
    ends.push(`${wanted.maxInclusive ? 'at most' : 'less than'} ${sayValue(max, unit, shownIn)}`);
  }
  return ends.join(' and ');
}

/**
 * What to do about a setting too close to call: `Feeler leaves (0.05 mm either way) would settle it.`
 * @returns null when the verdict is settled
 */
export function saySettling(result: Result, shownIn: LengthUnit): string | null {
  if (result.verdict !== 'too-close') return null;
  const taking = settlesWith(result);
  if (taking === null)
    return 'No instrument here would settle it: it has to be further inside the limit.';
  const { title } = INSTRUMENTS[taking.instrument];
  const either =
    shownIn === 'mm'
      ? `${Number(taking.uncertainty.toFixed(2))} mm`
      : `${mmToInches(taking.uncertainty).toFixed(3)} in`;
  return `${title} (${either} either way) would settle it.`;
}
