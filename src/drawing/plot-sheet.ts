import { escapeText, figure, node } from './markup.ts';
import type { Sheet } from './sheet.ts';
import type { Wording } from './view.ts';

export type Naming = {
  /** read out by a screen reader: what it is, in a few words */
  readonly title: string;
  /** what a person who cannot see it needs to know */
  readonly description: string;
  /** the words printed on it; English unless told */
  readonly wording?: Wording | undefined;
};

/** A finished sheet: one `<svg>` without script, style or ids. */
export const finishSheet = (
  kind: string,
  { title, description }: Naming,
  { width, height, scale }: Pick<Sheet, 'width' | 'height' | 'scale'>,
  ...body: string[]
): string =>
  node(
    'svg',
    {
      xmlns: 'http://www.w3.org/2000/svg',
      class: `bench-drawing bench-drawing--${kind}`,
      viewBox: `0 0 ${figure(width)} ${figure(height)}`,
      role: 'img',
      'data-scale': String(scale),
      fill: 'none',
    },
    node('title', {}, escapeText(title)),
    node('desc', {}, escapeText(description)),
    ...body,
  );
