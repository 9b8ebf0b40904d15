import { node } from '../markup.ts';

export type Drawn = { readonly width: number; readonly height: number; readonly marks: string };

/** Upright lines from `y`, as one path: x, and how far down. */
export const upright = (
  lines: readonly (readonly [x: number, length: number])[],
  y: number,
  width: number,
): string =>
  node('path', {
    d: lines.map(([x, length]) => `M${Number(x.toFixed(2))} ${y}v${length}`).join(''),
    stroke: 'currentColor',
    'stroke-width': width,
    fill: 'none',
  });

export const figureAt = (text: string, x: number, y: number, size: number): string =>
  node(
    'text',
    {
      x: Number(x.toFixed(2)),
      y,
      'font-size': size,
      'text-anchor': 'middle',
      fill: 'currentColor',
      class: 'scale-figure',
    },
    text,
  );

export const plate = (x: number, y: number, width: number, height: number, fill: string): string =>
  node('rect', { x, y, width, height, fill, stroke: 'currentColor', 'stroke-width': 1.5 });
