import type { Bench } from '../../bench/index.ts';
import { box } from '../shape/box.ts';
import { roundedRectangle } from '../shape/outlines.ts';
import type { Piece } from '../shape/pieces.ts';
import { prism } from '../shape/prism.ts';
import { movedSolid, type Solid, turnAbout, type Vec } from '../shape/solid.ts';
import { roundedPath, sweep } from '../shape/sweep.ts';
import { bar, hexagon, turned } from '../shape/turned.ts';
import { COLOURS } from '../surface/colours.ts';
import { type Layout, layoutOf } from './layout.ts';

/** The start and stop control and the isolator, with the padlock when the supply is locked off. */
export function controlPieces(bench: Bench): Piece[] {
  const layout = layoutOf(bench);
  const station = stationPlace(bench, layout);
  return [...startStop(station, layout), ...isolator(bench, layout)];
}

/**
 * Where the stop control is: on the front of the frame when it is within 600 mm of the operator, else
 * on a post as far down the bench as the bench says.
 */
export function stationPlace(bench: Bench, layout: Layout): Vec {
  const { stopReach } = bench.controls;
  const left = -layout.halfWidth;
  if (stopReach <= 600) return [layout.tableFront + 34, -112, Math.max(left + 150, -300)];
  return [bench.people.operator.x + stopReach, 30, left - 150];
}

/** A box facing the operator: mushroom-headed stop, shrouded start. */
function startStop([x, y, z]: Vec, { floor }: Layout): Piece[] {
  const face = x - 62;
  const paint = (solid: Solid, colour: string): Piece => ({ surface: 'enamel', colour, solid });
  const post =
    y > 0
      ? [
          paint(box([x - 34, floor + 10, z - 26], [x + 6, y - 60, z + 26], 4), COLOURS.machine),
          paint(box([x - 110, floor, z - 110], [x + 80, floor + 12, z + 110], 3), COLOURS.machine),
        ]
      : [];
  return [
    ...post,
    paint(box([face, y - 66, z - 42], [x + 2, y + 60, z + 42], 6), COLOURS.box),
    paint(box([face - 1, y - 60, z - 36], [face + 1, y + 54, z + 36], 0.8), COLOURS.boxDark),
    paint(
      turned(
        [face, y + 22, z],
        [-1, 0, 0],
        [
          [0, 20],
          [8, 17],
          [22, 15],
          [24, 27],
          [30, 29],
          [37, 25],
          [41, 15],
          [42, 0],
        ],
        { segments: 32 },
      ),
      COLOURS.stop,
    ),
    paint(
      turned(
        [face, y - 32, z],
        [-1, 0, 0],
        [
          [0, 17],
          [10, 17],
          [10, 13],
          [3, 13],
        ],
        { segments: 28 },
      ),
      COLOURS.box,
    ),
    paint(
      turned(
        [face - 2, y - 32, z],
        [-1, 0, 0],
        [
          [0, 12.5],
          [6, 12.5],
          [7, 11],
          [7, 0],
        ],
        { segments: 28 },
      ),
      COLOURS.line,
    ),
    paint(
      sweep(
        roundedPath(
          [
            [x - 20, y - 60, z],
            [x - 20, y - 150, z],
            [x + 60, y - 190, z],
            [x + 60, Math.max(floor + 40, y - 700), z],
          ],
          40,
        ),
        9,
      ),
      COLOURS.rubber,
    ),
  ];
}

/** Hinge side of the isolator: on the left of the frame, facing out where all can see it. */
export const isolatorPlace = ({ tableFront, halfWidth }: Layout): Vec => [
  tableFront + 190,
  -150,
  -halfWidth + 30,
];

function isolator(bench: Bench, layout: Layout): Piece[] {
  const { isolator: kind, isolated } = bench.controls;
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
    ...(kind === 'lockable' ? hasp(centre, isolated ? 'locked' : 'open') : []),
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
