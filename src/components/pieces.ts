/**
 * A sentence in pieces, so that each length in it can follow the unit switch. Lengths in millimetres;
 * `digits` decimals, one unless told.
 */
export type Piece = string | { readonly mm: number; readonly digits?: number };

/** The sentence as plain text in millimetres, for a title or a comparison. */
export const plainText = (pieces: readonly Piece[]): string =>
  pieces.map((piece) => (typeof piece === 'string' ? piece : `${piece.mm} mm`)).join('');
