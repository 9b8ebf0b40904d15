import { distance, type Point } from '../geometry/index.ts';
import { closedPath, figure, node, openPath, shape } from './markup.ts';
import { TEXT } from './sheet.ts';
import { type Anchor, lengthText, lengthTextWidth } from './text.ts';

/**
 * Dimensions after ISO 129-1 habit: thin lines, closed arrowheads touching the extension lines, which
 * start a little off the part and run a little past the dimension line. Everything in sheet units.
 */

const HEAD = { length: 13, half: 3.4 };
const OVERSHOOT = 6;
const OFF_PART = 3;
/** How far an arrow that points in from outside reaches back. */
const OUTSIDE = 26;

const towards = (from: Point, to: Point): Point => {
  const length = distance(from, to);
  return length === 0
    ? { x: 1, y: 0 }
    : { x: (to.x - from.x) / length, y: (to.y - from.y) / length };
};
const moved = (p: Point, way: Point, by: number): Point => ({
  x: p.x + way.x * by,
  y: p.y + way.y * by,
});

export const thinLine = (from: Point, to: Point, extra = {}): string =>
  shape(openPath([from, to]), 'thin', 'none', extra);

/** A closed arrowhead with its point at `tip`, flying along `way` (a unit vector). */
export function arrowhead(tip: Point, way: Point): string {
  const back = moved(tip, way, -HEAD.length);
  const side = { x: -way.y, y: way.x };
  return node('path', {
    class: 'head',
    d: closedPath([tip, moved(back, side, HEAD.half), moved(back, side, -HEAD.half)]),
    fill: 'currentColor',
    stroke: 'none',
  });
}

/** What a dimension measures, and the length shown, mm. */
export type Sized = { readonly id: string; readonly mm: number };

const wrap = (sized: Sized, ...parts: string[]): string =>
  node('g', { class: 'dimension', 'data-measure': sized.id, 'data-mm': sized.mm }, ...parts);

/**
 * The measured stretch itself, marked so that a check can find it. One drawn beside the part carries the
 * points it is taken from, sheet units.
 */
const stretch = (from: Point, to: Point, taken?: readonly [Point, Point]): string =>
  thinLine(from, to, {
    'data-stretch': '',
    'data-from': taken?.map(({ x, y }) => `${figure(x)} ${figure(y)}`).join(' '),
  });

function extension(from: Point, to: Point): string {
  const length = distance(from, to);
  if (length < OFF_PART) return '';
  const way = towards(from, to);
  return thinLine(moved(from, way, OFF_PART), moved(to, way, OVERSHOOT));
}

const fits = (length: number): boolean => length >= 2 * HEAD.length + 8;

function arrows(a: Point, b: Point): string {
  const way = towards(a, b);
  const back = { x: -way.x, y: -way.y };
  if (fits(distance(a, b))) return arrowhead(a, back) + arrowhead(b, way);
  return (
    arrowhead(a, way) +
    thinLine(moved(a, back, OUTSIDE), a) +
    arrowhead(b, back) +
    thinLine(moved(b, way, OUTSIDE), b)
  );
}

/** A level dimension at sheet height `y` between two points; its text above the line, or beside it when short. */
export function levelDimension(sized: Sized, from: Point, to: Point, y: number): string {
  const [left, right] = from.x <= to.x ? [from, to] : [to, from];
  const a = { x: left.x, y };
  const b = { x: right.x, y };
  const inside = distance(a, b) >= lengthTextWidth(sized.mm) + 8;
  const text = inside
    ? lengthText(sized.mm, { x: (a.x + b.x) / 2, y: y - 7 }, 'middle')
    : lengthText(sized.mm, { x: (a.x + b.x) / 2, y: y + TEXT + 4 }, 'middle');
  return wrap(
    sized,
    extension(left, a),
    extension(right, b),
    stretch(a, b, [left, right]),
    arrows(a, b),
    text,
  );
}

/**
 * An upright dimension at sheet `x`; its text lies level beside the line, on the side named.
 * @param share how far from `from` to `to` the text stands, 0 to 1
 */
export function uprightDimension(
  sized: Sized,
  from: Point,
  to: Point,
  x: number,
  side: 'left' | 'right',
  share = 0.5,
): string {
  const a = { x, y: from.y };
  const b = { x, y: to.y };
  const text = lengthText(
    sized.mm,
    { x: side === 'right' ? x + 9 : x - 9, y: a.y + (b.y - a.y) * share + TEXT * 0.35 },
    side === 'right' ? 'start' : 'end',
  );
  return wrap(
    sized,
    extension(from, a),
    extension(to, b),
    stretch(a, b, [from, to]),
    arrows(a, b),
    text,
  );
}

/**
 * A small gap: arrows point in at both ends along the gap itself, and a leader carries the text to
 * `textAt` where there is room.
 */
export function gapDimension(
  sized: Sized,
  from: Point,
  to: Point,
  leader: readonly Point[],
  anchor: Anchor,
): string {
  const last = leader[leader.length - 1] ?? to;
  const nudge = anchor === 'start' ? 6 : anchor === 'end' ? -6 : 0;
  const start = fits(distance(from, to))
    ? { x: (from.x + to.x) / 2, y: (from.y + to.y) / 2 }
    : moved(to, towards(from, to), OUTSIDE);
  return wrap(
    sized,
    stretch(from, to),
    arrows(from, to),
    leader.length > 0 ? shape(openPath([start, ...leader]), 'thin') : '',
    lengthText(sized.mm, { x: last.x + nudge, y: last.y + TEXT * 0.35 }, anchor),
  );
}
