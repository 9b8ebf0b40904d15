import type { Bench } from '../../bench/index.ts';
import { box } from '../shape/box.ts';
import type { Piece } from '../shape/pieces.ts';
import { prism } from '../shape/prism.ts';
import { movedSolid, type Solid, turnAbout, type Vec } from '../shape/solid.ts';
import { ball, bar, hexagon, turned } from '../shape/turned.ts';
import { COLOURS } from '../surface/colours.ts';
import { type Layout, layoutOf, TABLE_THICKNESS } from './layout.ts';

/** Height and thickness of the fence's face plate, mm. */
const FACE = { height: 118, thick: 16, lift: 1 };
const RAIL = { radius: 21, out: 46, y: -24 };

/** The rip fence: face plate, the casting that carries it, its saddle on the rail, and its lock. */
export function fencePieces(bench: Bench): Piece[] {
  const layout = layoutOf(bench);
  const { end, locked } = bench.fence;
  const near = Math.min(end - 540, layout.tableFront + 250);
  const saddleX = layout.tableFront - RAIL.out;
  const bodyTo = Math.min(end - 90, Math.max(layout.tableFront + 330, near + 60));
  // pieces are made with the face in the plane z = 0, then set at their distance and toe
  const pieces: Piece[] = [
    {
      surface: 'iron',
      colour: COLOURS.alloy,
      solid: facePlate(near, end),
      mesh: 'fence-face',
    },
    ...faceScrews(near, end),
    ...bodyCasting(layout, saddleX, bodyTo),
    ...saddle(saddleX, locked ? 'down' : 'up'),
  ];
  const turn = turnAbout('y', -layout.fenceTurn);
  const front = -layout.halfAtTable;
  const swing = (v: Vec): Vec => {
    const [x, y, z] = turn([v[0] - front, v[1], v[2]]);
    return [x + front, y, z];
  };
  return pieces.map((piece) => ({
    ...piece,
    solid: placed(piece.solid, swing, turn, layout.fenceFace),
  }));
}

/** Points swing about the front teeth; normals only turn. */
function placed(solid: Solid, swing: (v: Vec) => Vec, turn: (v: Vec) => Vec, z: number): Solid {
  const points = movedSolid(solid, swing, [0, 0, z]);
  return { ...points, normals: movedSolid(solid, turn).normals };
}

/** The plate stock runs along, with a chamfer along its foot where sawdust would lodge. */
function facePlate(near: number, end: number): Solid {
  const { height, thick, lift } = FACE;
  return prism({
    plane: 'end',
    outline: [
      { x: lift, y: 5 },
      { x: lift, y: thick },
      { x: height - 3, y: thick },
      { x: height, y: thick - 3 },
      { x: height, y: 2.5 },
      { x: height - 2.5, y: 0 },
      { x: lift + 5, y: 0 },
    ],
    from: near,
    to: end,
    chamfer: 1,
  });
}

function faceScrews(near: number, end: number): Piece[] {
  const places = [near + 60, (near + end) / 2, end - 60];
  return places.flatMap((x) =>
    [34, 84].map((y) => ({
      surface: 'steel' as const,
      colour: COLOURS.blackSteel,
      solid: turned(
        [x, y, 0.15],
        [0, 0, -1],
        [
          [0, 6.2],
          [0.3, 6.2],
          [0.3, 3],
          [-1.6, 2.8],
          [-1.6, 0],
        ],
        { segments: 16 },
      ),
    })),
  );
}

/** The rib behind the plate: a tall web over a foot that bears on the table. */
function bodyCasting(layout: Layout, from: number, to: number): Piece[] {
  const { thick } = FACE;
  const x0 = from + 30;
  const cast = (solid: Solid): Piece => ({ surface: 'enamel', colour: COLOURS.machine, solid });
  const ribs = Array.from({ length: 4 }, (_, i) => x0 + 40 + (i * (to - x0 - 80)) / 3);
  void layout;
  return [
    cast(box([x0, 1.5, thick], [to, 17, thick + 74], 4)),
    cast(box([x0, 10, thick], [to, 104, thick + 11], 3)),
    ...ribs.map((x) =>
      cast(
        prism({
          plane: 'end',
          outline: [
            { x: 14, y: thick + 8 },
            { x: 14, y: thick + 70 },
            { x: 26, y: thick + 70 },
            { x: 92, y: thick + 16 },
            { x: 92, y: thick + 8 },
          ],
          from: x - 5,
          to: x + 5,
          chamfer: 1.5,
        }),
      ),
    ),
  ];
}

/** The block that slides on the rail, with its pointer and its cam lever: down when locked. */
function saddle(x: number, lever: 'down' | 'up'): Piece[] {
  const cast = (solid: Solid): Piece => ({ surface: 'enamel', colour: COLOURS.machine, solid });
  const z0 = -4;
  const z1 = FACE.thick + 96;
  const middle = (z0 + z1) / 2;
  const angle = lever === 'down' ? -1.32 : 0.62;
  const hub: Vec = [x - 38, -6, middle];
  const handle: Vec = [hub[0] - 96 * Math.cos(angle), hub[1] + 96 * Math.sin(angle), middle];
  return [
    cast(
      prism({
        plane: 'side',
        outline: [
          { x: x - 36, y: RAIL.y - 30 },
          { x: x + 24, y: RAIL.y - 30 },
          { x: x + 24, y: -1 },
          { x: x + 46, y: 1.5 },
          { x: x + 60, y: 17 },
          { x: x + 30, y: 28 },
          { x: x - 22, y: 20 },
          { x: x - 36, y: 4 },
        ],
        from: z0,
        to: z1,
        chamfer: 4,
      }),
    ),
    {
      surface: 'steel',
      colour: COLOURS.brightSteel,
      solid: bar([hub[0] + 6, hub[1], middle - 17], [hub[0] + 6, hub[1], middle + 17], 10),
    },
    { surface: 'steel', colour: COLOURS.brightSteel, solid: bar(hub, handle, 6.5) },
    { surface: 'enamel', colour: COLOURS.bakelite, solid: ball(handle, 17, 20) },
    {
      surface: 'steel',
      colour: COLOURS.blackSteel,
      solid: hexagon([x + 12, 22, z1 - 24], [0, 1, 0], 17, 9),
    },
    pointer(x),
  ];
}

/** A sharp pointer over the scale, in line with the fence face. */
function pointer(x: number): Piece {
  return {
    surface: 'mark',
    colour: COLOURS.bakelite,
    solid: prism({
      plane: 'plan',
      outline: [
        { x: -0.5, y: x + 30 },
        { x: 0.5, y: x + 30 },
        { x: 4, y: x + 52 },
        { x: -4, y: x + 52 },
      ],
      from: 2,
      to: 2.6,
    }),
  };
}

/** The round rail the fence slides on, fixed along the operator's edge of the table. */
export function railPieces(bench: Bench): Piece[] {
  const layout = layoutOf(bench);
  const x = layout.tableFront - RAIL.out;
  const { from, to } = railEnds(layout);
  const posts = [from + 60, (from + to) / 2, to - 60];
  return [
    {
      surface: 'steel',
      colour: COLOURS.brightSteel,
      solid: bar([x, RAIL.y, from], [x, RAIL.y, to], RAIL.radius, 28),
      grain: 'z',
    },
    ...posts.map(
      (z): Piece => ({
        surface: 'enamel',
        colour: COLOURS.machine,
        solid: box(
          [x - 6, RAIL.y - 16, z - 22],
          [layout.tableFront + 2, -TABLE_THICKNESS / 2 + 12, z + 22],
          3,
        ),
      }),
    ),
    ...posts.map(
      (z): Piece => ({
        surface: 'steel',
        colour: COLOURS.blackSteel,
        solid: hexagon([x - RAIL.radius + 1, RAIL.y, z], [-1, 0, 0], 15, 6),
      }),
    ),
  ];
}

export const railEnds = ({ halfWidth }: Layout): { from: number; to: number } => ({
  from: -24,
  to: halfWidth + 60,
});
