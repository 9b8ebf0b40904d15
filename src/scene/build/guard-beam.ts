import type { Bench, Guard } from '../../bench/index.ts';
import type { Piece } from '../shape/pieces.ts';
import type { Solid, Vec } from '../shape/solid.ts';
import { ball, bar, turned } from '../shape/turned.ts';
import { COLOURS } from '../surface/colours.ts';
import type { Layout } from './layout.ts';

/** The bar over the line of cut that the guard slides along, and the pillar behind it. mm. */
export type Beam = {
  /** above the table in the plane of the blade, and where that comes to when the arbor is tilted */
  readonly up: number;
  readonly y: number;
  readonly z: number;
  /** x of both ends */
  readonly from: number;
  readonly to: number;
  readonly pillarZ: number;
};

export function beamOf(bench: Bench, layout: Layout): Beam {
  const { guard, arbor } = bench;
  const reach = Math.max(layout.tipRadius, arbor.largestBlade / 2);
  const centre = guard === null ? 0 : (guard.front + guard.rear) / 2;
  const up = layout.hoodRim + layout.hoodDepth + 66;
  return {
    up,
    y: up * Math.cos(layout.tilt),
    z: up * Math.sin(layout.tilt),
    from: Math.min(-reach * 0.85, centre - 150),
    to: Math.max(reach + 150, centre + 150),
    pillarZ: -layout.halfWidth - 46,
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
