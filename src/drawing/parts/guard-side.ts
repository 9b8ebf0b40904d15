import { type Bench, bladeFrame, type Guard } from '../../bench/index.ts';
import type { Point } from '../../geometry/index.ts';
import { closedPath, node, openPath, shape } from '../markup.ts';
import { rectangle } from '../rectangle.ts';
import { circlePath } from './blade-side.ts';

export type GuardShape = {
  /** closed outline of the hood from the side; its straight lower edge is the underside */
  readonly hood: readonly Point[];
  /** y of the underside as it stands now, and of the crown of the hood */
  readonly underside: number;
  readonly crown: number;
  /** y of the top of the posts or arm that carry it */
  readonly top: number;
};

/** Room between the blade and the crown of the hood, mm. */
const OVER_BLADE = 20;
/** Height of the hood's two ends above its underside, mm. */
const LIP = 16;
const POST_HALF = 7;

const ridesOnStock = (guard: Guard): boolean =>
  (guard.kind === 'self-closing' || guard.kind === 'counterweighted') && !guard.stuck;

/** The hood as it stands: a guard that rides on the work rests on the stock, any other stays where it is set. */
export function guardShape(bench: Bench, guard: Guard): GuardShape {
  const frame = bladeFrame(bench);
  const underside = ridesOnStock(guard) ? frame.stock : guard.height;
  const crown = Math.max(frame.tipRadius - frame.depth, underside + LIP) + OVER_BLADE;
  const { front, rear } = guard;
  // the crown is flat over the middle of the blade and falls to a lip at each end
  const slope = Math.min((rear - front) * 0.34, Math.max(30, (crown - underside - LIP) * 2.2));
  return {
    underside,
    crown,
    top: crown + 112,
    hood: [
      { x: front, y: underside },
      { x: rear, y: underside },
      { x: rear, y: underside + LIP },
      { x: rear - slope, y: crown },
      { x: front + slope, y: crown },
      { x: front, y: underside + LIP },
    ],
  };
}

/** x of the two posts that carry a guard set by hand. */
export function postsOf(guard: Guard): readonly [number, number] {
  const middle = (guard.front + guard.rear) / 2;
  const spread = Math.min(95, (guard.rear - guard.front) * 0.24);
  return [middle - spread, middle + spread];
}

const box = (left: number, right: number, bottom: number, top: number): string =>
  closedPath(rectangle(left, right, bottom, top));

/** Posts through an arm with clamp screws; hung from above when suspended; a pivoted arm when it rides. */
export function drawGuardSupport(bench: Bench, guard: Guard): string {
  const { crown, top } = guardShape(bench, guard);
  const middle = (guard.front + guard.rear) / 2;
  const centres = postsOf(guard);
  if (ridesOnStock(guard) || guard.kind === 'self-closing' || guard.kind === 'counterweighted') {
    const pivot = { x: guard.rear + 120, y: crown + 55 };
    return node(
      'g',
      { class: 'guard-support' },
      shape(
        closedPath([
          { x: middle, y: crown },
          { x: middle + 14, y: crown },
          { x: pivot.x, y: pivot.y - 7 },
          { x: pivot.x, y: pivot.y + 7 },
          { x: middle, y: crown + 16 },
        ]),
        'thin',
        'iron',
      ),
      shape(circlePath(pivot, 13), 'thin', 'iron'),
      shape(circlePath(pivot, 5), 'thin', 'steel'),
    );
  }
  const arm = { bottom: crown + 52, top: crown + 70 };
  const reach = guard.kind === 'suspended' ? 400 : top - crown;
  const posts = centres.flatMap((x) => [
    shape(box(x - POST_HALF, x + POST_HALF, crown, crown + reach), 'thin', 'steel', {
      'data-part': 'post',
    }),
    shape(
      openPath([
        { x, y: crown - 6 },
        { x, y: crown + reach + 8 },
      ]),
      'centre',
    ),
    shape(box(x - 17, x + 17, crown, crown + 9), 'thin', 'iron'),
  ]);
  if (guard.kind === 'suspended') return node('g', { class: 'guard-support' }, ...posts);
  const clamps = centres.flatMap((x) => [
    shape(box(x - 18, x + 18, arm.bottom - 6, arm.top + 6), 'thin', 'iron'),
    shape(circlePath({ x, y: (arm.bottom + arm.top) / 2 }, 8), 'thin', 'steel'),
  ]);
  return node(
    'g',
    { class: 'guard-support' },
    ...posts,
    shape(box(centres[0] - 40, centres[1] + 40, arm.bottom, arm.top), 'thin', 'iron', {
      'data-part': 'arm',
    }),
    ...clamps,
  );
}

/** The crown guard seen from the side; the blade shows through it. Model markup, mm. */
export function drawGuardSide(bench: Bench): string {
  const { guard } = bench;
  if (guard === null) return '';
  const { hood, underside } = guardShape(bench, guard);
  const skirt =
    guard.sideDepth > 0
      ? shape(
          box(guard.front + 12, guard.rear - 12, underside - guard.sideDepth, underside),
          'thin',
          'guard',
          {
            'data-part': 'guard-side',
            'fill-opacity': 0.55,
          },
        )
      : '';
  return node(
    'g',
    { class: 'guard' },
    drawGuardSupport(bench, guard),
    skirt,
    shape(closedPath(hood), 'outline', 'guard', { 'data-part': 'guard', 'fill-opacity': 0.55 }),
    drawFingers(bench, guard),
  );
}

/** A finger trails behind its pivot: it slides as the work goes on, and bites when it comes back. */
function drawFingers(bench: Bench, guard: Guard): string {
  if (guard.fingers === 'none') return '';
  const { underside } = guardShape(bench, guard);
  const { stock } = bladeFrame(bench);
  const pivot = { x: guard.rear - 16, y: underside + 11 };
  const drop = pivot.y - stock;
  const length = Math.max(46, drop * 1.25);
  // stock that stands above the pivot (a guard set too low) lifts them, but never past upright
  const share = Math.max(-0.95, drop / length);
  const fall = guard.fingers === 'resting' ? Math.asin(share) : -0.5;
  const along = { x: Math.cos(fall), y: -Math.sin(fall) };
  const below = { x: -along.y * -1, y: -along.x };
  const at = (share: number, depth: number): Point => ({
    x: pivot.x + along.x * length * share + below.x * depth,
    y: pivot.y + along.y * length * share + below.y * depth,
  });
  return node(
    'g',
    { class: 'fingers', 'data-part': 'fingers' },
    shape(
      closedPath([
        at(0, -5),
        at(0.94, -5),
        at(1, 0),
        at(0.86, 1),
        at(0.86, 5),
        at(0.72, 1),
        at(0.72, 5),
        at(0.58, 1),
        at(0, 6),
      ]),
      'thin',
      'steel',
    ),
    shape(circlePath(pivot, 5.5), 'thin', 'iron'),
  );
}
