import type { Words } from '../blocks/block.ts';
import type { Sheet, Style } from './page.ts';

/** Points from one line of text to the next. */
export const leading = ({ size }: Style): number => size * 1.32;

/** The language of words that are not in that of the document. */
export const langOf = (words: Words): { readonly lang?: string } =>
  typeof words === 'string' ? {} : { lang: words.lang };

/** Begins a new page where not so much room is left. */
export function makeRoom(sheet: Sheet, points: number): void {
  if (sheet.y + points > sheet.bottom()) sheet.turn();
}

/** Lines one under the other, over as many pages as they take. */
export function drawLines(
  sheet: Sheet,
  lines: readonly string[],
  style: Style,
  x = sheet.left,
): void {
  for (const line of lines) {
    makeRoom(sheet, leading(style));
    sheet.draw(line, style, x, sheet.y);
    sheet.y += leading(style);
  }
}
