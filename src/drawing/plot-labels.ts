import type { Point } from '../geometry/index.ts';
import type { Anchor } from './text.ts';

/** A rectangle on the sheet, y down. */
export type Box = {
  readonly left: number;
  readonly right: number;
  readonly top: number;
  readonly bottom: number;
};

export type Spot = { readonly at: Point; readonly anchor: Anchor };
export type Segment = readonly [Point, Point];

/** The space words take: `at` is on their base line. */
export function boxOf({ at, anchor }: Spot, width: number, height: number): Box {
  const left = anchor === 'start' ? at.x : anchor === 'end' ? at.x - width : at.x - width / 2;
  return { left, right: left + width, top: at.y - height * 0.8, bottom: at.y + height * 0.25 };
}

export const boxesMeet = (a: Box, b: Box): boolean =>
  a.left < b.right && b.left < a.right && a.top < b.bottom && b.top < a.bottom;

const isInside = (box: Box, area: Box): boolean =>
  box.left >= area.left &&
  box.right <= area.right &&
  box.top >= area.top &&
  box.bottom <= area.bottom;

/** Whether a straight line passes through a box (Liang and Barsky's clipping). */
export function segmentMeets([from, to]: Segment, box: Box): boolean {
  const along = { x: to.x - from.x, y: to.y - from.y };
  let enters = 0;
  let leaves = 1;
  const sides = [
    [-along.x, from.x - box.left],
    [along.x, box.right - from.x],
    [-along.y, from.y - box.top],
    [along.y, box.bottom - from.y],
  ] as const;
  for (const [slope, room] of sides) {
    if (slope === 0) {
      if (room < 0) return false;
    } else if (slope < 0) enters = Math.max(enters, room / slope);
    else leaves = Math.min(leaves, room / slope);
  }
  return enters <= leaves;
}

export type Surroundings = {
  /** where words may stand */
  readonly area: Box;
  /** words and marks already there: never covered */
  readonly taken: readonly Box[];
  /** lines words had better keep off */
  readonly segments: readonly Segment[];
  /** the line these words name: no other line should lie nearer to them */
  readonly own?: readonly Segment[];
};

/** From a point to a straight line between two others. */
function distanceTo({ x, y }: Point, [from, to]: Segment): number {
  const along = { x: to.x - from.x, y: to.y - from.y };
  const square = along.x ** 2 + along.y ** 2;
  const share = square === 0 ? 0 : ((x - from.x) * along.x + (y - from.y) * along.y) / square;
  const on = Math.min(1, Math.max(0, share));
  return Math.hypot(x - from.x - on * along.x, y - from.y - on * along.y);
}

const nearest = (point: Point, segments: readonly Segment[]): number =>
  Math.min(...segments.map((segment) => distanceTo(point, segment)));

const centreOf = (box: Box): Point => ({
  x: (box.left + box.right) / 2,
  y: (box.top + box.bottom) / 2,
});

/** A spot nearer to another line counts as three lines crossed. */
const ASTRAY = 3;

/**
 * The best spot for words of this size: clear of all other words, across as few lines as can be,
 * and early in the list. Null when every spot would cover other words or leave the area.
 */
export function findSpot(
  spots: readonly Spot[],
  width: number,
  height: number,
  { area, taken, segments, own = [] }: Surroundings,
): Spot | null {
  const others = segments.filter((segment) => !own.includes(segment));
  let best: Spot | null = null;
  let least = Number.POSITIVE_INFINITY;
  for (const [i, spot] of spots.entries()) {
    const box = boxOf(spot, width, height);
    if (!isInside(box, area) || taken.some((other) => boxesMeet(box, other))) continue;
    const crossed = segments.filter((segment) => segmentMeets(segment, box)).length;
    const middle = centreOf(box);
    const isAstray = own.length > 0 && nearest(middle, others) < nearest(middle, own);
    const cost = (crossed + (isAstray ? ASTRAY : 0)) * spots.length + i;
    if (cost < least) [best, least] = [spot, cost];
  }
  return best;
}
