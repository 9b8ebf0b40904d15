import type { Bench, Guard } from '../../bench/index.ts';
import { box } from '../shape/box.ts';
import { circle, roundedRectangle } from '../shape/outlines.ts';
import type { Piece } from '../shape/pieces.ts';
import { prism } from '../shape/prism.ts';
import { bar, hexagon, turned } from '../shape/turned.ts';
import { COLOURS } from '../surface/colours.ts';
import { type Beam, beamOf, casting, clampLever, steel } from './guard-beam.ts';
import { type Layout, layoutOf } from './layout.ts';

/** What the guard hangs from, standing on the frame or the ceiling. With the guard off, its bare post. */
export function guardSupportPieces(bench: Bench): Piece[] {
  const { guard } = bench;
  const layout = layoutOf(bench);
  const beam = beamOf(bench, layout);
  if (guard === null) return pillar(beam);
  if (guard.kind === 'suspended') return hangingPost(guard, beam, layout);
  return [
    ...pillar(beam),
    ...crossArm(beam, guard),
    ...(guard.kind === 'counterweighted' ? counterweight(beam) : []),
  ];
}

function pillar(beam: Beam): Piece[] {
  const { to: x, pillarZ: z } = beam;
  const top = Math.max(560, beam.y + 90);
  const foot = -250;
  const cap = turned(
    [x, top, z],
    [0, 1, 0],
    [
      [0, 25.5],
      [8, 25.5],
      [13, 16],
      [14, 0],
    ],
  );
  const bolts = [-90, -200].flatMap((y) =>
    [-24, 24].map((dx) => hexagon([x + dx, y, z - 40], [0, 0, -1], 17, 9)),
  );
  return [
    steel(bar([x, foot, z], [x, top, z], 25, 28)),
    casting(cap),
    casting(box([x - 42, foot + 4, z - 40], [x + 42, -56, z + 62], 7)),
    ...bolts.map((solid) => steel(solid, COLOURS.blackSteel)),
  ];
}

/** Clamp head on the pillar, the arm across to the blade line, and the bar along it. */
function crossArm(beam: Beam, guard: Guard): Piece[] {
  const { to: x, pillarZ: z, y, z: over } = beam;
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
    outline: roundedRectangle([over - 34, x - 36], [over + 34, x + 36], 14),
    from: y - 32,
    to: y + 32,
    chamfer: 4,
  });
  return [
    casting(head),
    steel(bar([x, y, z + 60], [x, y, over], 21, 24)),
    casting(elbow),
    ...alongBar(beam, beam.from, x),
    ...clampLever([x - 44, y, z - 8], [-1, 0, 0], guard),
  ];
}

/** The square bar itself, its end closed by a cap. */
function alongBar({ y, z }: Beam, from: number, to: number): Piece[] {
  return [
    steel(box([from, y - 15, z - 15], [to, y + 15, z + 15], 2)),
    casting(box([from - 5, y - 17, z - 17], [from + 3, y + 17, z + 17], 3)),
  ];
}

/** Hung from above on a stayed tube. */
function hangingPost(guard: Guard, beam: Beam, layout: Layout): Piece[] {
  const { y, z } = beam;
  const x = (guard.front + guard.rear) / 2;
  const top = layout.floor + 2900;
  const stay = (side: number) => bar([x, y + 330, z], [x + 900, top, z + side * 520], 9);
  return [
    ...alongBar(beam, x - 130, x + 130),
    casting(box([x - 24, y + 12, z - 24], [x + 24, top, z + 24], 4)),
    casting(box([x - 46, y + 300, z - 46], [x + 46, y + 360, z + 46], 5)),
    steel(stay(-1)),
    steel(stay(1)),
  ];
}

function counterweight({ to, y, pillarZ }: Beam): Piece[] {
  const x = to + 190;
  const weight = turned(
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
  );
  return [
    steel(bar([to, y, pillarZ + 60], [x + 70, y - 8, pillarZ + 60], 11)),
    { surface: 'enamel', colour: COLOURS.boxDark, solid: weight },
  ];
}
