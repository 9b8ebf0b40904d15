import type { Bench } from '../../bench/index.ts';
import type { Point } from '../../geometry/index.ts';
import { circle } from '../shape/outlines.ts';
import type { Piece } from '../shape/pieces.ts';
import { prism } from '../shape/prism.ts';
import { COLOURS } from '../surface/colours.ts';
import { layoutOf } from './layout.ts';
import { stockBox } from './stock.ts';

const THICK = 18;

/** Whether the stick is already in the hand: the piece is no longer than the part fed with it. */
export const stickInHand = ({ job, people, controls }: Bench): boolean =>
  people.pushStick !== null &&
  !controls.isolated &&
  job.cut !== 'crosscut' &&
  job.stock.length <= people.pushStick.usedForLast;

/**
 * Where the stick lies: flat on the operator's left, its mouth toward the blade; behind the fence when
 * the work lies across the table; behind the work once it is in the hand.
 */
export function stickPlace(bench: Bench): { x: number; z: number } {
  const layout = layoutOf(bench);
  const length = bench.people.pushStick?.length ?? 0;
  if (stickInHand(bench)) {
    const { from, to } = stockBox(bench);
    return { x: from[0] - length, z: (from[2] + to[2]) / 2 };
  }
  return {
    x: Math.max(layout.tableFront + 46, -layout.halfAtTable - 110 - length),
    z:
      bench.job.cut === 'crosscut'
        ? Math.min(layout.halfWidth - 50, layout.fenceFace + 160)
        : -layout.halfWidth + 82,
  };
}

/** A push stick: a notch that takes the end of the work, a thumb swell, a hole to hang it by. */
export function pushStickPieces(bench: Bench): Piece[] {
  const stick = bench.people.pushStick;
  if (stick === null || stick.length < 20) return [];
  const { x, z } = stickPlace(bench);
  return [
    {
      surface: 'timber',
      colour: COLOURS.stick,
      solid: prism({
        plane: 'plan',
        outline: stickOutline(stick.length, stick.notched ?? true).map((p) => ({
          x: p.x + z,
          y: p.y + x,
        })),
        holes: [circle(z + 1, x + 26, 6, 16)],
        from: 0,
        to: THICK,
        chamfer: 2.4,
      }),
      mesh: 'push-stick',
    },
  ];
}

/** From the handle's end at 0 along `y` to the mouth; across is `x`. Without a notch it ends square. */
function stickOutline(length: number, notched: true | false): Point[] {
  const k = Math.min(1, length / 300);
  const mouth = notched
    ? [
        { x: 4 * k, y: length },
        { x: -3 * k, y: length - 24 * k },
        { x: -15 * k, y: length - 17 * k },
      ]
    : [{ x: -17 * k, y: length }];
  return [
    { x: -12 * k, y: 0 },
    { x: 12 * k, y: 0 },
    { x: 20 * k, y: 8 * k },
    { x: 22 * k, y: 34 * k },
    { x: 17 * k, y: 62 * k },
    { x: 14 * k, y: length * 0.5 },
    { x: 16 * k, y: length - 40 * k },
    { x: 16 * k, y: length },
    ...mouth,
    { x: -17 * k, y: length - 40 * k },
    { x: -14 * k, y: length * 0.5 },
    { x: -17 * k, y: 62 * k },
    { x: -22 * k, y: 34 * k },
    { x: -20 * k, y: 8 * k },
  ];
}
