import type { Point } from '../geometry/index.ts';
import { node, openPath, shape } from './markup.ts';
import { TEXT } from './sheet.ts';

export const BALLOON_RADIUS = 19;

/** A numbered balloon with a leader that ends in a dot on the part it names. Sheet units. */
export function balloon(number: number, at: Point, target: Point): string {
  const length = Math.hypot(target.x - at.x, target.y - at.y) || 1;
  const edge = {
    x: at.x + ((target.x - at.x) / length) * BALLOON_RADIUS,
    y: at.y + ((target.y - at.y) / length) * BALLOON_RADIUS,
  };
  return node(
    'g',
    { class: 'balloon-mark', 'data-number': number },
    shape(openPath([edge, target]), 'thin'),
    node('circle', {
      class: 'dot',
      cx: target.x,
      cy: target.y,
      r: 3.2,
      fill: 'currentColor',
      stroke: 'none',
    }),
    node('circle', {
      class: 'l-thin m-paper',
      cx: at.x,
      cy: at.y,
      r: BALLOON_RADIUS,
      fill: 'none',
      stroke: 'currentColor',
      'stroke-width': 1,
      'vector-effect': 'non-scaling-stroke',
    }),
    node(
      'text',
      {
        class: 'number',
        x: at.x,
        y: at.y + TEXT * 0.35,
        'text-anchor': 'middle',
        'font-size': TEXT,
        fill: 'currentColor',
        stroke: 'none',
      },
      String(number),
    ),
  );
}
