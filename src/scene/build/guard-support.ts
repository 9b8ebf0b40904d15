import type { Bench, Guard } from '../../bench/index.ts';
import { box } from '../shape/box.ts';
import { circle, roundedRectangle } from '../shape/outlines.ts';
import type { Piece } from '../shape/pieces.ts';
import { prism } from '../shape/prism.ts';
import type { Solid, Vec } from '../shape/solid.ts';
import { ball, bar, hexagon, turned } from '../shape/turned.ts';
import { COLOURS } from '../surface/colours.ts';
import type { Layout } from './layout.ts';

const steel = (solid: Solid, colour: string = COLOURS.brightSteel): Piece => ({
  surface: 'steel',
  colour,
  solid,
});
const cast = (solid: Solid): Piece => ({ surface: 'enamel', colour: COLOURS.machineDark, solid });

/** What the guard hangs from. With the guard off, its bare post is left. */
export function guardSupport(bench: Bench, guard: Guard | null, layout: Layout): Piece[] {
  const beam = beamOf(bench, guard, layout);
  if (guard === null) return pillar(beam);
  if (guard.kind === 'suspended')
    return [...hangers(guard, layout, beam), ...hangingPost(guard, beam, layout)];
  return [
    ...pillar(beam),
    ...crossArm(beam, guard),
    ...hangers(guard, layout, beam),
    ...(guard.kind === 'counterweighted' ? counterweight(beam) : []),
    ...(guard.kind === 'self-closing' ? flaps(guard, layout) : []),
  ];
}

/** The bar over the line of cut that the hood slides along, and the pillar behind it. */
type Beam = {
  readonly y: number;
  readonly from: number;
  readonly to: number;
  readonly pillarZ: number;
};

function beamOf(bench: Bench, guard: Guard | null, layout: Layout): Beam {
  const reach = Math.max(layout.tipRadius, bench.arbor.largestBlade / 2);
  const to = reach + 150;
  const centre = guard === null ? 0 : (guard.front + guard.rear) / 2;
  return {
    y: layout.hoodRim + layout.hoodDepth + 66,
    from: Math.min(-reach * 0.85, centre - 150),
    to: Math.max(to, centre + 150),
    pillarZ: -layout.halfWidth - 46,
  };
}

function pillar(beam: Beam): Piece[] {
  const { to: x, pillarZ: z } = beam;
  const top = Math.max(560, beam.y + 90);
  const foot = -250;
  return [
    steel(bar([x, foot, z], [x, top, z], 25, 28)),
    cast(
      turned(
        [x, top, z],
        [0, 1, 0],
        [
          [0, 25.5],
          [8, 25.5],
          [13, 16],
          [14, 0],
        ],
        { segments: 24 },
      ),
    ),
    cast(box([x - 42, foot + 4, z - 40], [x + 42, -56, z + 62], 7)),
    ...[-90, -200].flatMap((y) =>
      [-24, 24].map((dx) =>
        steel(hexagon([x + dx, y, z - 40], [0, 0, -1], 17, 9), COLOURS.blackSteel),
      ),
    ),
  ];
}

/** Clamp head on the pillar, the arm across to the blade line, and the bar along it. */
function crossArm(beam: Beam, guard: Guard): Piece[] {
  const { to: x, pillarZ: z, y } = beam;
  const head = prism({
    plane: 'plan',
    outline: roundedRectangle([z - 44, x - 44], [z + 74, x + 44], 22),
    holes: [circle(z, x, 25.2, 28)],
    from: y - 34,
    to: y + 34,
    chamfer: 4,
  });
  const elbow = prism({
    plane: 'plan',
    outline: roundedRectangle([-34, x - 36], [34, x + 36], 14),
    from: y - 32,
    to: y + 32,
    chamfer: 4,
  });
  return [
    cast(head),
    steel(bar([x, y, z + 60], [x, y, 0], 21, 24)),
    cast(elbow),
    steel(box([beam.from, y - 15, -15], [x, y + 15, 15], 2)),
    cast(box([beam.from - 5, y - 17, -17], [beam.from + 3, y + 17, 17], 3)),
    ...lever([x - 44, y, z - 8], [-1, 0, 0], guard),
  ];
}

/** Carriage on the bar and the two rods down to the hood. */
function hangers(guard: Guard, layout: Layout, beam: Beam): Piece[] {
  const centre = (guard.front + guard.rear) / 2;
  const spread = Math.min(74, (guard.rear - guard.front) * 0.2);
  const roof = layout.hoodRim + layout.hoodDepth;
  const rods = [-spread, spread].flatMap((dx) => [
    steel(bar([centre + dx, roof - 8, 0], [centre + dx, beam.y + 26, 0], 9, 18)),
    steel(hexagon([centre + dx, roof, 0], [0, 1, 0], 26, 9), COLOURS.blackSteel),
    steel(hexagon([centre + dx, beam.y + 26, 0], [0, 1, 0], 24, 10), COLOURS.blackSteel),
  ]);
  return [
    cast(box([centre - spread - 26, beam.y - 26, -28], [centre + spread + 26, beam.y + 26, 28], 5)),
    ...rods,
    ...lever([centre, beam.y, -28], [0, 0, -1], guard),
  ];
}

/**
 * A ball-ended clamp lever on a boss: lying down when tight, standing up and out when slack.
 * @param out direction the boss stands out in
 */
function lever(at: Vec, out: Vec, guard: Guard): Piece[] {
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

/** Hung from above on a stayed tube. */
function hangingPost(guard: Guard, beam: Beam, layout: Layout): Piece[] {
  const x = (guard.front + guard.rear) / 2;
  const top = layout.floor + 2900;
  return [
    steel(box([x - 130, beam.y - 15, -15], [x + 130, beam.y + 15, 15], 2)),
    cast(box([x - 24, beam.y + 12, -24], [x + 24, top, 24], 4)),
    steel(bar([x, beam.y + 330, 0], [x + 900, top, -520], 9)),
    steel(bar([x, beam.y + 330, 0], [x + 900, top, 520], 9)),
    cast(box([x - 46, beam.y + 300, -46], [x + 46, beam.y + 360, 46], 5)),
  ];
}

function counterweight({ to, y, pillarZ }: Beam): Piece[] {
  const x = to + 190;
  return [
    steel(bar([to, y, pillarZ + 60], [x + 70, y - 8, pillarZ + 60], 11)),
    {
      surface: 'enamel',
      colour: COLOURS.boxDark,
      solid: turned(
        [x, y - 4, pillarZ + 60],
        [1, -0.04, 0],
        [
          [-42, 0],
          [-42, 52],
          [-36, 58],
          [36, 58],
          [42, 52],
          [42, 0],
        ],
      ),
    },
  ];
}

/** Flaps at both sides that the work lifts; at rest they close down to the table, or stick where they are. */
function flaps(guard: Guard, layout: Layout): Piece[] {
  const bottom = guard.stuck ? layout.hoodRim + 4 : Math.min(2, layout.hoodRim);
  const { hoodHalf: half, hoodRim: rim } = layout;
  const front = Math.max(guard.front + 20, -layout.halfAtTable - 30);
  return [half + 1, -half - 3].map((z) => ({
    surface: 'steel',
    colour: COLOURS.groundSteel,
    solid: box([front + 6, bottom, z], [guard.rear - 20, rim + 22, z + 2], 0.6),
    mesh: 'guard-flaps',
  }));
}
