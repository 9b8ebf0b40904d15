import type { Bench } from '../../bench/index.ts';
import { box } from '../shape/box.ts';
import { circle, roundedRectangle } from '../shape/outlines.ts';
import type { Piece } from '../shape/pieces.ts';
import { prism } from '../shape/prism.ts';
import { movedSolid, type Solid, turnAbout, type Vec } from '../shape/solid.ts';
import { roundedPath, sweep } from '../shape/sweep.ts';
import { bar, hexagon, turned } from '../shape/turned.ts';
import { COLOURS } from '../surface/colours.ts';
import type { Layout } from './layout.ts';

/** Hinge side of the isolator: on the left of the frame, facing out where all can see it. */
export const isolatorPlace = ({ tableFront, halfWidth }: Layout): Vec => [
  tableFront + 190,
  -150,
  -halfWidth + 30,
];

/** The isolator with its cable, its plate and, locked off, the padlock. */
export function isolatorPieces(bench: Bench, layout: Layout): Piece[] {
  const { isolator: kind, isolated, isolatorMarked, lockKey } = bench.controls;
  if (kind === 'none') return [];
  const [x, y, z] = isolatorPlace(layout);
  const face = z - 84;
  const paint = (solid: Solid, colour: string): Piece => ({ surface: 'enamel', colour, solid });
  const centre: Vec = [x, y, face];
  // upright is on, level is off
  const turn = isolated ? Math.PI / 2 : 0;
  const spin = (solid: Solid): Solid => movedSolid(solid, turnAbout('z', turn), centre);
  const handle = prism({
    plane: 'side',
    outline: roundedRectangle([-11, -44], [11, 44], 9),
    from: -38,
    to: -14,
    chamfer: 4,
  });
  return [
    paint(box([x - 72, y - 100, face], [x + 72, y + 100, z + 4], 7), COLOURS.box),
    paint(box([x - 52, y - 58, face - 2], [x + 52, y + 58, face + 2], 1.2), COLOURS.boxDark),
    paint(
      turned(
        centre,
        [0, 0, -1],
        [
          [0, 34],
          [8, 34],
          [12, 30],
          [14, 0],
        ],
        { segments: 36 },
      ),
      COLOURS.bakelite,
    ),
    paint(spin(handle), COLOURS.bakelite),
    { surface: 'mark', colour: COLOURS.line, solid: spin(box([-2, 12, -38.4], [2, 40, -38])) },
    ...legend(centre),
    ...[-60, 60].flatMap((dx) =>
      [-88, 88].map(
        (dy): Piece => ({
          surface: 'steel',
          colour: COLOURS.groundSteel,
          solid: hexagon([x + dx, y + dy, face], [0, 0, -1], 9, 3),
        }),
      ),
    ),
    paint(
      sweep(
        roundedPath(
          [
            [x, y - 96, z - 40],
            [x, y - 260, z - 40],
            [x, layout.floor + 30, z - 40],
            [x - 20, layout.floor + 30, z - 900],
          ],
          60,
        ),
        13,
      ),
      COLOURS.rubber,
    ),
    ...(isolatorMarked === false ? bareHoles([x, y, face]) : plate([x, y, face])),
    ...(kind === 'lockable' ? hasp(centre, isolated ? 'locked' : 'open') : []),
    ...(kind === 'lockable' && isolated && lockKey === 'in-lock' ? key(centre) : []),
  ];
}

/** A plate that says which machine it cuts off: a saw blade through a table. */
function plate([x, y, face]: Vec): Piece[] {
  const at: Vec = [x, y + 77, face];
  const teeth = Array.from({ length: 24 }, (_, i) => {
    const turn = (i * Math.PI) / 12;
    const reach = i % 2 === 0 ? 15 : 11.5;
    return { x: at[0] + reach * Math.cos(turn), y: at[1] - 2 + reach * Math.sin(turn) };
  });
  const mark = (solid: Solid, colour: string): Piece => ({ surface: 'mark', colour, solid });
  return [
    mark(box([x - 46, at[1] - 18, face - 2], [x + 46, at[1] + 18, face - 0.5]), '#e9e8e2'),
    mark(
      prism({ plane: 'side', outline: teeth, from: face - 2.6, to: face - 2 }),
      COLOURS.bakelite,
    ),
    mark(box([x - 38, at[1] - 7, face - 2.9], [x + 38, at[1] - 3, face - 2.6]), '#e9e8e2'),
    mark(box([x - 38, at[1] - 5, face - 3.1], [x + 38, at[1] - 3, face - 2.9]), COLOURS.bakelite),
  ];
}

/** Two holes where the plate was. */
const bareHoles = ([x, y, face]: Vec): Piece[] =>
  [-40, 40].map((dx) => ({
    surface: 'mark' as const,
    colour: COLOURS.bakelite,
    solid: prism({
      plane: 'side',
      outline: circle(x + dx, y + 77, 2.6, 10),
      from: face - 0.6,
      to: face,
    }),
  }));

/** The key left in the padlock, with the ring and tag it should be carried by. */
function key([x, y, z]: Vec): Piece[] {
  const steel = (solid: Solid): Piece => ({ surface: 'steel', colour: COLOURS.brightSteel, solid });
  const ring = Array.from({ length: 17 }, (_, i): Vec => {
    const turn = (i * Math.PI) / 8;
    return [x + 56 + 15 * Math.cos(turn), y - 82 + 17 * Math.sin(turn), z - 68];
  });
  return [
    steel(box([x + 53, y - 57, z - 64], [x + 59, y - 51, z - 42], 0.6)),
    steel(
      prism({
        plane: 'side',
        outline: circle(x + 56, y - 60, 11, 16),
        holes: [circle(x + 56, y - 62, 4, 10)],
        from: z - 70,
        to: z - 64,
      }),
    ),
    steel(sweep(ring, 1.5, 6)),
    {
      surface: 'enamel',
      colour: COLOURS.line,
      solid: prism({
        plane: 'side',
        outline: roundedRectangle([x + 40, y - 148], [x + 72, y - 96], 7),
        from: z - 70,
        to: z - 67,
      }),
    },
  ];
}

/** Marks of IEC 60417: a bar for on at the top, a ring for off at the side. */
function legend([x, y, z]: Vec): Piece[] {
  const mark = (solid: Solid): Piece => ({ surface: 'mark', colour: COLOURS.line, solid });
  const front = z - 2.4;
  return [
    mark(box([x - 1.6, y + 43, front], [x + 1.6, y + 54, front + 0.2])),
    mark(
      turned(
        [x - 44, y, front],
        [0, 0, -1],
        [
          [0, 4],
          [0, 6],
        ],
        { segments: 20 },
      ),
    ),
    mark(
      turned(
        [x - 44, y, front],
        [0, 0, -1],
        [
          [0.1, 6],
          [0.1, 4],
        ],
        { segments: 20 },
      ),
    ),
  ];
}

/** The drilled tongue, and the padlock through it once the handle is off. */
function hasp([x, y, z]: Vec, state: 'open' | 'locked'): Piece[] {
  const tongue: Piece = {
    surface: 'steel',
    colour: COLOURS.brightSteel,
    solid: box([x + 40, y - 9, z - 30], [x + 66, y + 9, z - 26], 1),
  };
  if (state === 'open') return [tongue];
  const bow = Array.from({ length: 13 }, (_, i): Vec => {
    const angle = (i * Math.PI) / 12;
    return [x + 56 + 13 * Math.cos(angle), y - 6 + 20 * Math.sin(angle) - 8, z - 32];
  });
  const legsOf = (px: number): Solid => bar([px, y - 34, z - 32], [px, y - 12, z - 32], 3.4, 12);
  return [
    tongue,
    { surface: 'steel', colour: COLOURS.brightSteel, solid: sweep(bow, 3.4, 12) },
    { surface: 'steel', colour: COLOURS.brightSteel, solid: legsOf(x + 43) },
    { surface: 'steel', colour: COLOURS.brightSteel, solid: legsOf(x + 69) },
    {
      surface: 'steel',
      colour: COLOURS.brass,
      solid: box([x + 34, y - 70, z - 42], [x + 78, y - 30, z - 22], 4),
    },
    {
      surface: 'mark',
      colour: COLOURS.bakelite,
      solid: turned(
        [x + 56, y - 54, z - 42.2],
        [0, 0, -1],
        [
          [0, 4],
          [0.1, 0],
        ],
        { segments: 12 },
      ),
    },
  ];
}
