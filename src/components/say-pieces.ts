import { formatLength, type LengthUnit } from '../geometry/index.ts';
import type { WordId } from '../words/catalogue/index.ts';
import { cutSentence } from '../words/index.ts';
import type { Speaker } from '../words/say.ts';
import type { Piece } from './pieces.ts';

/** What stands in a place of a sentence in pieces: a word, a length, or pieces of their own. */
export type PutPieces = Readonly<Record<string, Piece | number | readonly Piece[]>>;

/** A sentence of the catalogue as pieces, so that the lengths put into it follow the unit switch. */
export function sayPieces(say: Speaker, id: WordId, put: PutPieces = {}): Piece[] {
  return cutSentence(say(id)).flatMap((part): readonly Piece[] => {
    if (part.kind !== 'place') return [part.text];
    const word = put[part.name];
    if (word === undefined) return [`{${part.name}}`];
    if (typeof word === 'number') return [String(word)];
    return isPieces(word) ? word : [word];
  });
}

/** Pieces as plain text with their lengths in one unit, for where none can follow the unit switch. */
export const writePieces = (pieces: readonly Piece[], unit: LengthUnit, say: Speaker): string =>
  pieces
    .map((piece) =>
      typeof piece === 'string' ? piece : say.figures(formatLength(piece.mm, unit, piece.digits)),
    )
    .join('');

const isPieces = (word: Piece | readonly Piece[]): word is readonly Piece[] => Array.isArray(word);
