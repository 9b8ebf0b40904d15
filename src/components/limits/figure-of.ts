import { MM_PER_INCH } from '../../geometry/index.ts';
import { type Limit, type LimitEndFile, sayValue } from '../../limits/index.ts';
import { listIn } from '../../words/index.ts';
import { type Speaker, sayIn } from '../../words/say.ts';
import { sayPlainValue } from '../lesson/limit-pieces.ts';
import type { Piece } from '../pieces.ts';
import { sayPieces } from '../say-pieces.ts';
import { nameSubject } from './say-when.ts';

function sayNumber(limit: Limit, end: number, say: Speaker): Piece {
  if (limit.published === 'in') return { mm: end * MM_PER_INCH, digits: 2 };
  return limit.unit === 'mm' ? { mm: end, digits: 2 } : sayPlainValue(say, end, limit.unit);
}

function sayEnd(limit: Limit, end: LimitEndFile, say: Speaker): Piece[] {
  if (typeof end === 'number') return [sayNumber(limit, end, say)];
  if (typeof end === 'string') return [nameSubject(end, say)];
  const isSmaller = 'smallerOf' in end;
  const figures = (isSmaller ? end.smallerOf : end.largerOf)
    .map((one) => sayEnd(limit, one, say))
    .reduce((one, other) => sayPieces(say, 'limits.figures', { one, other }));
  return sayPieces(say, isSmaller ? 'limits.smaller' : 'limits.larger', { figures });
}

/** A word a limit allows, as a person calls it: `enclosed`, `extraction hood`. */
function sayWord(limit: Limit, word: string | boolean, say: Speaker): string {
  const english = sayValue(word, limit.unit, 'mm');
  const plain = say.maybe(`names.value.${english}`, english.replaceAll('-', ' '));
  return say.maybe(`limits.word.${english}`, plain);
}

/** What a limit asks, in pieces: "at least 3 mm, at most 8 mm", "fitted", "yes". */
export function figureOf(limit: Limit, say: Speaker = sayIn('en')): Piece[] {
  const { wanted, asWritten } = limit;
  if (wanted.kind === 'fitted') {
    return [say(wanted.fitted ? 'names.asks.fitted' : 'names.asks.not-fitted')];
  }
  if (wanted.kind === 'word') {
    const words = wanted.allowed.map((word) => sayWord(limit, word, say));
    return [listIn(say.language, words, 'disjunction')];
  }
  const { min, max } = asWritten;
  const least =
    min === null
      ? null
      : sayPieces(say, wanted.minInclusive ? 'names.asks.at-least' : 'names.asks.more-than', {
          size: sayEnd(limit, min, say),
        });
  const most =
    max === null
      ? null
      : sayPieces(say, wanted.maxInclusive ? 'names.asks.at-most' : 'names.asks.less-than', {
          size: sayEnd(limit, max, say),
        });
  if (least !== null && most !== null) return sayPieces(say, 'limits.both', { least, most });
  return least ?? most ?? [];
}
