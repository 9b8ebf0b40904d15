import type { Bench, Guard } from '../../bench/index.ts';
import { box } from '../shape/box.ts';
import { circle, roundedRectangle } from '../shape/outlines.ts';
import type { Piece } from '../shape/pieces.ts';
import { prism } from '../shape/prism.ts';
import { movedSolid, type Solid, turnAbout, type Vec } from '../shape/solid.ts';
import { bar, hexagon, turned } from '../shape/turned.ts';
import { COLOURS } from '../surface/colours.ts';
import { type Beam, beamOf, casting, clampLever, steel } from './guard-beam.ts';
import { type Layout, layoutOf } from './layout.ts';

/** What the guard hangs from. With the guard off, its bare pillar; none when it rides on the knife. */
export function guardSupportPieces(bench: Bench): Piece[] {
  const { guard } = bench;
  const layout = layoutOf(bench);
  const beam = beamOf(bench, layout);
  if (guard === null) return pillar(beam);
  if (guard.carriedBy === 'knife') return [];
  if (guard.kind === 'suspended' || guard.carriedBy === 'hung') {
    return hangingPost(guard, beam, layout);
  }
  return [...pillar(beam), ...crossArm(bench, beam, guard, layout)];
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

/** Clamp head on the pillar, the arm across to the blade line, and what stands at its end. */
function crossArm(bench: Bench, beam: Beam, guard: Guard, layout: Layout): Piece[] {
  const { to: x, pillarZ: z, y, z: over } = beam;
  const head = prism({
    plane: 'plan',
    outline: roundedRectangle([z - 44, x - 44], [z + 74, x + 44], 22),
    holes: [circle(z, x, 25.2, 28)],
    from: y - 34,
    to: y + 34,
    chamfer: 4,
  });
  return [
    casting(head),
    steel(bar([x, y, z + 60], [x, y, over], 21, 24)),
    ...swivel(beam, layout),
    ...(bench.guard?.kind === 'counterweighted' ? [] : alongBar(beam, beam.from, x, layout)),
    ...clampLever([x - 44, y, z - 8], [-1, 0, 0], guard),
  ];
}

/**
 * The end of the arm: a fixed disc with a degree mark every five, and the head that turns on it, so that
 * the guard leans with a tilted arbor and is clamped there.
 */
function swivel({ to: x, y, z }: Beam, { tilt, guardLeans }: Layout): Piece[] {
  const turn = guardLeans ? tilt : 0;
  const radius = 54;
  const disc = (from: number, long: number, r: number) =>
    turned(
      [x + from, y, z],
      [1, 0, 0],
      [
        [0, 0],
        [0, r],
        [long, r],
        [long, 0],
      ],
      { segments: 40 },
    );
  const marks = Array.from({ length: 13 }, (_, i): Piece => {
    const angle = ((i * 5 - 5) * Math.PI) / 180;
    const long = i % 2 === 1 ? 11 : 7;
    const at = (r: number, side: number): Vec => [
      x + 38.4,
      y + r * Math.cos(angle) - side * Math.sin(angle),
      z + r * Math.sin(angle) + side * Math.cos(angle),
    ];
    return {
      surface: 'enamel',
      colour: COLOURS.line,
      solid: prism({
        plane: 'end',
        outline: [
          at(radius - 2, -0.7),
          at(radius - 2, 0.7),
          at(radius - 2 - long, 0.7),
          at(radius - 2 - long, -0.7),
        ].map(([, v, w]) => ({ x: v, y: w })),
        from: x + 38,
        to: x + 38.5,
      }),
    };
  });
  const out = (r: number, side: number) => ({
    x: y + r * Math.cos(turn) - side * Math.sin(turn),
    y: z + r * Math.sin(turn) + side * Math.cos(turn),
  });
  const pointer = prism({
    plane: 'end',
    outline: [out(20, -13), out(20, 13), out(radius - 12, 0)],
    from: x + 38,
    to: x + 44,
  });
  return [
    casting(disc(-36, 50, 38)),
    casting(disc(14, 24, radius)),
    ...marks,
    steel(pointer),
    steel(hexagon([x + 38, y, z], [1, 0, 0], 34, 16), COLOURS.blackSteel),
  ];
}

/** The square bar itself, its end closed by a cap, turned with what it carries. */
function alongBar({ y, z }: Beam, from: number, to: number, { tilt, guardLeans }: Layout): Piece[] {
  const turn = turnAbout('x', guardLeans ? tilt : 0);
  const at = (solid: Solid): Solid => ({
    ...movedSolid(solid, turn, [0, y, z]),
    normals: movedSolid(solid, turn).normals,
  });
  return [
    steel(at(box([from, -15, -15], [to, 15, 15], 2))),
    casting(at(box([from - 5, -17, -17], [from + 3, 17, 17], 3))),
  ];
}

/** mm the post of a hung guard stands clear of the left of the table: the widest panel passes between. */
const CLEAR_OF_TABLE = 790;

/** A heavy post standing on the floor well clear of the table, its boom over the blade held by two stays. */
function hangingPost(guard: Guard, beam: Beam, layout: Layout): Piece[] {
  const { y, z, to } = beam;
  const x = (guard.front + guard.rear) / 2;
  const postX = Math.max(to, x) + 60;
  const postZ = -layout.halfWidth - CLEAR_OF_TABLE;
  const boom = y + 330;
  const top = boom + 520;
  const { floor } = layout;
  const stay = (z1: number) => bar([postX, top - 26, postZ], [postX, boom + 24, z1], 7, 12);
  const buckle = (z1: number, t: number): Piece => {
    const at = (s: number): Vec => [
      postX,
      top - 26 + (boom + 50 - top) * s,
      postZ + (z1 - postZ) * s,
    ];
    return steel(bar(at(t - 0.06), at(t + 0.06), 12, 10), COLOURS.blackSteel);
  };
  return [
    ...alongBar(beam, x - 130, postX + 40, layout),
    // the post on its foot, and what holds it to the floor
    casting(box([postX - 45, floor + 16, postZ - 45], [postX + 45, top, postZ + 45], 6)),
    casting(box([postX - 190, floor, postZ - 190], [postX + 190, floor + 18, postZ + 190], 4)),
    ...[-150, 150].flatMap((dx) =>
      [-150, 150].map((dz) =>
        steel(hexagon([postX + dx, floor + 18, postZ + dz], [0, 1, 0], 30, 16), COLOURS.blackSteel),
      ),
    ),
    ...[-1, 1].map((side) =>
      casting(
        prism({
          plane: 'end',
          outline: [
            { x: floor + 16, y: postZ + side * 44 },
            { x: floor + 16, y: postZ + side * 170 },
            { x: floor + 190, y: postZ + side * 44 },
          ],
          from: postX - 6,
          to: postX + 6,
        }),
      ),
    ),
    // boom, stays, and the drop tube down to the bar
    casting(box([postX - 30, boom - 30, postZ], [postX + 30, boom + 30, z + 70], 4)),
    steel(stay(z + 40)),
    steel(stay((postZ + z) / 2)),
    buckle(z + 40, 0.5),
    buckle((postZ + z) / 2, 0.5),
    casting(box([postX - 42, boom - 60, z - 42], [postX + 42, boom + 52, z + 42], 5)),
    steel(box([postX - 20, y - 17, z - 20], [postX + 20, boom + 150, z + 20], 3)),
    ...clampLever([postX - 42, boom, z], [-1, 0, 0], guard),
  ];
}
