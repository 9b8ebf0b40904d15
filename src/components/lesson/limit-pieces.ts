import { type Limit, type Result, sayValue } from '../../limits/index.ts';
import type { Speaker } from '../../words/say.ts';
import type { Piece } from '../pieces.ts';
import { sayPieces } from '../say-pieces.ts';

/** A value that is no length, in the language: `yes`, `enclosed`, `9,8 s`. */
export const sayPlainValue = (
  say: Speaker,
  value: Result['value'],
  unit: Limit['unit'],
): string => {
  const english = sayValue(value, unit, 'mm');
  // English shows the word of the bench file itself
  const word =
    say.language === 'en' ? english : say.maybe(`limits.word.${english}`, say.figures(english));
  return say.maybe(`names.value.${english}`, word);
};

/** What a limit asks of this bench, in pieces: `at least 3 mm and at most 8 mm`, `required`. */
export function limitPieces(
  { wanted, unit }: Limit,
  { min, max }: Pick<Result, 'min' | 'max'>,
  say: Speaker,
): Piece[] {
  if (wanted.kind === 'fitted') {
    return [say(wanted.fitted ? 'names.asks.fitted' : 'names.asks.not-fitted')];
  }
  if (wanted.kind === 'word') {
    const [first] = wanted.allowed;
    // a yes-or-no limit is said as a duty, for a bare "yes" says little in a table
    if (typeof first === 'boolean')
      return [say(first ? 'names.asks.required' : 'names.asks.ruled-out')];
    return wanted.allowed
      .map((word): Piece[] => [sayPlainValue(say, word, unit)])
      .reduce((one, other) => sayPieces(say, 'names.asks.or', { one, other }));
  }
  const size = (value: number): readonly Piece[] =>
    unit === 'mm' ? [{ mm: value, digits: 2 }] : [sayPlainValue(say, value, unit)];
  const least =
    min === null
      ? null
      : sayPieces(say, wanted.minInclusive ? 'names.asks.at-least' : 'names.asks.more-than', {
          size: size(min),
        });
  const most =
    max === null
      ? null
      : sayPieces(say, wanted.maxInclusive ? 'names.asks.at-most' : 'names.asks.less-than', {
          size: size(max),
        });
  if (least !== null && most !== null) return sayPieces(say, 'names.asks.both', { least, most });
  return least ?? most ?? [];
}
