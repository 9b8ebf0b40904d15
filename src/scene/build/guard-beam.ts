import type { Bench, Guard } from '../../bench/index.ts';
import type { Piece } from '../shape/pieces.ts';
import type { Solid, Vec } from '../shape/solid.ts';
import { ball, bar, turned } from '../shape/turned.ts';
import { COLOURS } from '../surface/colours.ts';
import { GUARD_STOP, type Layout } from './layout.ts';

/** What stands over the line of cut and holds the guard, and the pillar behind it. mm. */
export type Beam = {
  /** above the table in the plane of the guard, and where that comes to when it leans */
  readonly up: number;
  readonly y: number;
  readonly z: number;
  /** x of both ends */
  readonly from: number;
  readonly to: number;
  readonly pillarZ: number;
  /** arms of a riding guard: length from pin to pin, and the rim's height at which they lie level */
  readonly armLong: number;
  readonly armDrop: number;
};

/** mm over the roof of the hood: its carriage, and the pins of a riding guard's arms. */
export const OVER_ROOF = 66;
/** mm the posts of a guard set by hand can be drawn up through their clamp. */
export const POST_TRAVEL = 90;

export function beamOf(bench: Bench, layout: Layout): Beam {
  const { guard, arbor } = bench;
  const { hoodRim, hoodDepth } = layout;
  const reach = Math.max(layout.tipRadius, arbor.largestBlade / 2);
  const centre = guard === null ? 0 : (guard.front + guard.rear) / 2;
  // posts slide in their clamp as far as they go; above that the arm is moved up its pillar
  const posts = Math.max(hoodRim + hoodDepth, 0.46 * reach + POST_TRAVEL) + OVER_ROOF;
  // arms of a riding guard lie level with it half way up its usual work
  const armDrop = GUARD_STOP + 36;
  const up = guard?.kind === 'counterweighted' ? hoodDepth + armDrop + OVER_ROOF : posts;
  const tilt = layout.guardLeans ? layout.tilt : 0;
  const to = Math.max(reach + 150, centre + 150);
  const fall = hoodRim - armDrop;
  return {
    up,
    y: up * Math.cos(tilt),
    z: up * Math.sin(tilt),
    from: Math.min(-reach * 0.85, centre - 150),
    to,
    pillarZ: -layout.halfWidth - 46,
    // the bench says where the hood's ends are with the stock ready: the arms are as long as that makes them
    armLong: Math.hypot(to - centre, fall),
    armDrop,
  };
}

export const steel = (solid: Solid, colour: string = COLOURS.brightSteel): Piece => ({
  surface: 'steel',
  colour,
  solid,
});

export const casting = (solid: Solid): Piece => ({
  surface: 'enamel',
  colour: COLOURS.machineDark,
  solid,
});

/**
 * A ball-ended clamp lever on a boss: lying down when tight, standing up and out when slack.
 * @param out direction the boss stands out in, level
 */
export function clampLever(at: Vec, out: Vec, guard: Guard): Piece[] {
  const [ox, , oz] = out;
  const tip = (along: number, up: number, side: number): Vec => [
    at[0] + ox * along + oz * side,
    at[1] + up,
    at[2] + oz * along - ox * side,
  ];
  const hub = tip(17, 0, 0);
  const end = guard.locked ? tip(34, -62, 58) : tip(52, 80, -26);
  return [
    steel(
      turned(at, out, [
        [0, 0],
        [0, 19],
        [5, 19],
        [7, 15],
        [24, 13],
        [27, 8],
        [27, 0],
      ]),
      COLOURS.blackSteel,
    ),
    steel(bar(hub, end, 5.5)),
    { surface: 'enamel', colour: COLOURS.bakelite, solid: ball(end, 15) },
  ];
}
