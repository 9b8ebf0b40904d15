import type { Point } from '../geometry/index.ts';
import { BALLOON_RADIUS, balloon } from './balloon.ts';
import { type Box, boxesMeet, boxOf } from './plot-labels.ts';
import type { Sheet } from './sheet.ts';
import { TEXT } from './sheet.ts';
import { type Anchor, FIGURE_ADVANCE, WORD_ADVANCE } from './text.ts';

/** Where a balloon had best stand and the point its leader ends in, sheet units. */
export type BalloonSpot = { readonly at: Point; readonly target: Point };

const WORDS = /<text ([^>]*)>([^<]*)<\/text>/g;
/** Room kept round words and balloons, sheet units. */
const ROOM = 3;

const attribute = (written: string, name: string): string =>
  new RegExp(`(?:^| )${name}="([^"]*)"`).exec(written)?.[1] ?? '';

/** The boxes of all words in some markup, those of both units. */
export function wordBoxes(markup: string): Box[] {
  return [...markup.matchAll(WORDS)].map(([, written = '', text = '']) => {
    const at = { x: Number(attribute(written, 'x')), y: Number(attribute(written, 'y')) };
    const isFigure = attribute(written, 'class').startsWith('size');
    const width = text.length * TEXT * (isFigure ? FIGURE_ADVANCE : WORD_ADVANCE + 0.02);
    const anchor = (attribute(written, 'text-anchor') || 'start') as Anchor;
    return boxOf({ at, anchor }, width, TEXT);
  });
}

const boxRound = ({ x, y }: Point): Box => {
  const reach = BALLOON_RADIUS + ROOM;
  return { left: x - reach, right: x + reach, top: y - reach, bottom: y + reach };
};

/** The best spot, then others in rings round it, the nearest first. */
function spotsRound(at: Point): Point[] {
  const rings = [24, 44, 64, 88, 116, 148];
  return [
    at,
    ...rings.flatMap((far) =>
      Array.from({ length: 16 }, (_, i) => ({
        x: at.x + far * Math.cos((i * Math.PI) / 8),
        y: at.y + far * Math.sin((i * Math.PI) / 8),
      })),
    ),
  ];
}

/**
 * Numbered balloons that cover no words and no other balloon and stay on the sheet: each as near to its best
 * spot as that allows. Null spots are parts that are not there; their numbers are left out.
 * @param around markup whose words are kept free
 */
export function placeBalloons(
  spots: readonly (BalloonSpot | null)[],
  around: string,
  sheet: Pick<Sheet, 'width' | 'height'>,
): string {
  const taken = wordBoxes(around);
  const isFree = (box: Box): boolean =>
    box.left >= 0 &&
    box.top >= 0 &&
    box.right <= sheet.width &&
    box.bottom <= sheet.height &&
    !taken.some((other) => boxesMeet(box, other));
  return spots
    .map((spot, i) => {
      if (spot === null) return '';
      const at = spotsRound(spot.at).find((one) => isFree(boxRound(one))) ?? spot.at;
      taken.push(boxRound(at));
      return balloon(i + 1, at, spot.target);
    })
    .join('');
}
