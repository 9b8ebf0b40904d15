import { MM_PER_INCH } from '../../geometry/index.ts';
import { type Limit, type LimitEndFile, sayValue } from '../../limits/index.ts';
import type { Piece } from '../pieces.ts';
import { nameSubject } from './say-when.ts';

function sayNumber(limit: Limit, end: number): Piece {
  if (limit.published === 'in') return { mm: end * MM_PER_INCH, digits: 2 };
  return limit.unit === 'mm' ? { mm: end, digits: 2 } : sayValue(end, limit.unit, 'mm');
}

function sayEnd(limit: Limit, end: LimitEndFile): Piece[] {
  if (typeof end === 'number') return [sayNumber(limit, end)];
  if (typeof end === 'string') return [nameSubject(end)];
  const isSmaller = 'smallerOf' in end;
  const figures = isSmaller ? end.smallerOf : end.largerOf;
  return [
    `the ${isSmaller ? 'smaller' : 'larger'} of `,
    ...figures.flatMap((one, i) => [...(i === 0 ? [] : [' and ']), ...sayEnd(limit, one)]),
  ];
}

/** What a limit asks, in pieces: "at least 3 mm, at most 8 mm", "fitted", "yes". */
export function figureOf(limit: Limit): Piece[] {
  const { wanted, asWritten } = limit;
  if (wanted.kind === 'fitted') return [wanted.fitted ? 'fitted' : 'not fitted'];
  if (wanted.kind === 'word') {
    const words = wanted.allowed.map((word) => sayValue(word, limit.unit, 'mm'));
    return [words.map((word) => word.replaceAll('-', ' ')).join(' or ')];
  }
  const { min, max } = asWritten;
  const parts: Piece[] = [];
  if (min !== null)
    parts.push(wanted.minInclusive ? 'at least ' : 'more than ', ...sayEnd(limit, min));
  if (min !== null && max !== null) parts.push(', ');
  if (max !== null)
    parts.push(wanted.maxInclusive ? 'at most ' : 'less than ', ...sayEnd(limit, max));
  return parts;
}
