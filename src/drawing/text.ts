import { formatLength, type Point } from '../geometry/index.ts';
import { escapeText, node } from './markup.ts';
import { TEXT } from './sheet.ts';

export type Anchor = 'start' | 'middle' | 'end';

/** Width of one letter over the text height: the figures' face is monospaced, the words' face narrower on average. */
export const FIGURE_ADVANCE = 0.62;
export const WORD_ADVANCE = 0.56;

/** A word or two on the sheet. `at` is the left end, middle or right end of the base line. */
export function words(text: string, at: Point, anchor: Anchor = 'start'): string {
  return node(
    'text',
    {
      class: 'word',
      x: at.x,
      y: at.y,
      'text-anchor': anchor,
      'font-size': TEXT,
      fill: 'currentColor',
      stroke: 'none',
    },
    escapeText(text),
  );
}

/** A length in both units; the page shows one. Without a style sheet it is the millimetres. */
export function lengthText(length: number, at: Point, anchor: Anchor): string {
  const common = {
    x: at.x,
    y: at.y,
    'text-anchor': anchor,
    'font-size': TEXT,
    fill: 'currentColor',
    stroke: 'none',
  };
  return (
    node('text', { class: 'size mm', ...common }, formatLength(length, 'mm')) +
    node('text', { class: 'size inch', ...common, display: 'none' }, formatLength(length, 'inch'))
  );
}

/** Sheet width a length takes in the wider of its two units. */
export const lengthTextWidth = (length: number): number =>
  Math.max(formatLength(length, 'mm').length, formatLength(length, 'inch').length) *
  FIGURE_ADVANCE *
  TEXT;
