import { type Limit, type Result, sayValue } from '../../limits/index.ts';
import type { WordId } from '../../words/catalogue/index.ts';
import { cutSentence } from '../../words/index.ts';
import type { Speaker } from '../../words/say.ts';
import type { Piece } from '../pieces.ts';

/** A sentence of the catalogue as pieces, its one place filled with pieces. */
function put(
  say: Speaker,
  id: WordId,
  filled: Readonly<Record<string, readonly Piece[]>>,
): Piece[] {
  return cutSentence(say(id)).flatMap((part): readonly Piece[] =>
    part.kind === 'place' ? (filled[part.name] ?? []) : [part.text],
  );
}

/** A value that is no length, in the language: `yes`, `enclosed`, `9,8 s`. */
export const sayPlainValue = (
  say: Speaker,
  value: Result['value'],
  unit: Limit['unit'],
): string => {
  const english = sayValue(value, unit, 'mm');
  return say.maybe(`names.value.${english}`, say.figures(english));
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
      .reduce((one, other) => put(say, 'names.asks.or', { one, other }));
  }
  const size = (value: number): readonly Piece[] =>
    unit === 'mm' ? [{ mm: value, digits: 2 }] : [sayPlainValue(say, value, unit)];
  const least =
    min === null
      ? null
      : put(say, wanted.minInclusive ? 'names.asks.at-least' : 'names.asks.more-than', {
          size: size(min),
        });
  const most =
    max === null
      ? null
      : put(say, wanted.maxInclusive ? 'names.asks.at-most' : 'names.asks.less-than', {
          size: size(max),
        });
  if (least !== null && most !== null) return put(say, 'names.asks.both', { least, most });
  return least ?? most ?? [];
}
