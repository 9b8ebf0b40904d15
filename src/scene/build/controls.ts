import type { Bench } from '../../bench/index.ts';
import { box } from '../shape/box.ts';
import type { Piece } from '../shape/pieces.ts';
import { movedSolid, type Solid, turnAbout, type Vec } from '../shape/solid.ts';
import { roundedPath, sweep } from '../shape/sweep.ts';
import { bar, turned } from '../shape/turned.ts';
import { COLOURS } from '../surface/colours.ts';
import { isolatorPieces } from './isolator.ts';
import { type Layout, layoutOf } from './layout.ts';

/** The start and stop control, the isolator, and the brake where there is one. */
export function controlPieces(bench: Bench): Piece[] {
  const layout = layoutOf(bench);
  return [...startStop(bench, layout), ...isolatorPieces(bench, layout), ...brake(bench, layout)];
}

/**
 * Where the stop control is: on the front of the frame when it is within 600 mm of the operator, else
 * on a post as far down the bench as the bench says. Where a hand has to pass the blade to reach it,
 * it stands on the far side of the blade.
 */
export function stationPlace(bench: Bench, layout: Layout): Vec {
  const { stopReach, stopOverBlade } = bench.controls;
  const { x, z } = bench.people.operator;
  const left = -layout.halfWidth;
  if (stopOverBlade === true) {
    const side = z <= 0 ? layout.halfWidth + 150 : left - 150;
    return [Math.max(60, x + Math.sqrt(Math.max(0, stopReach ** 2 - (side - z) ** 2))), 30, side];
  }
  if (stopReach <= 600) return [layout.tableFront + 34, -112, Math.max(left + 150, -300)];
  return [x + stopReach, 30, left - 150];
}

const paint = (solid: Solid, colour: string): Piece => ({ surface: 'enamel', colour, solid });

/** A box facing the operator: mushroom-headed stop, and what starts the saw. */
function startStop(bench: Bench, layout: Layout): Piece[] {
  const [x, y, z] = stationPlace(bench, layout);
  const { floor } = layout;
  const face = x - 62;
  const { stopWorks, startShrouded, underVoltage } = bench.controls;
  const post =
    y > 0
      ? [
          paint(box([x - 34, floor + 10, z - 26], [x + 6, y - 60, z + 26], 4), COLOURS.machine),
          paint(box([x - 110, floor, z - 110], [x + 80, floor + 12, z + 110], 3), COLOURS.machine),
        ]
      : [];
  const start: Vec = [face, y - 32, z];
  return [
    ...post,
    paint(box([face, y - 66, z - 42], [x + 2, y + 60, z + 42], 6), COLOURS.box),
    paint(box([face - 1, y - 60, z - 36], [face + 1, y + 54, z + 36], 0.8), COLOURS.boxDark),
    stopHead([face, y + 22, z]),
    ...(underVoltage
      ? button(start, startShrouded === false ? 'proud' : 'shrouded')
      : lever(start)),
    ...(stopWorks === false ? wiresOut([x, y, z]) : cable([x, y, z], floor)),
  ];
}

const stopHead = (at: Vec): Piece =>
  paint(
    turned(
      at,
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
  );

/** The start button: sunk in its ring, or standing proud of the box with nothing round it. */
function button(at: Vec, kind: 'shrouded' | 'proud'): Piece[] {
  const head = (high: number, radius: number): Piece =>
    paint(
      turned(
        at,
        [-1, 0, 0],
        [
          [-2, radius],
          [high - 1, radius],
          [high, radius - 1.5],
          [high, 0],
        ],
        {
          segments: 28,
        },
      ),
      COLOURS.line,
    );
  if (kind === 'proud') return [head(26, 15)];
  return [
    paint(
      turned(
        at,
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
    head(5, 12.5),
  ];
}

/**
 * A lever that stays where it is put: without a starter that drops out, the saw runs again as soon as
 * the supply is back (common practice, no published source).
 */
function lever([x, y, z]: Vec): Piece[] {
  return [
    paint(box([x - 8, y - 24, z - 17], [x, y + 24, z + 17], 2), COLOURS.bakelite),
    paint(bar([x - 6, y, z], [x - 38, y + 20, z], 6, 12), COLOURS.line),
    ...[12, -14].map(
      (dy): Piece => ({
        surface: 'mark',
        colour: COLOURS.line,
        solid: box(
          [x - 8.4, y + dy - (dy > 0 ? 5 : 1), z + 10],
          [x - 8, y + dy + (dy > 0 ? 5 : 1), z + 13],
        ),
      }),
    ),
  ];
}

const cable = ([x, y, z]: Vec, floor: number): Piece[] => [
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

/** The lead has been pulled out of its gland: the stop is joined to nothing. */
function wiresOut([x, y, z]: Vec): Piece[] {
  const wire = (dz: number, colour: string): Piece =>
    paint(
      sweep(
        [
          [x - 22, y - 176, z + dz * 0.4],
          [x - 34, y - 150, z + dz],
          [x - 44, y - 132, z + dz * 1.8],
        ],
        2.6,
        6,
      ),
      colour,
    );
  return [
    paint(
      turned(
        [x - 20, y - 66, z],
        [0, -1, 0],
        [
          [0, 14],
          [12, 14],
          [12, 6],
          [2, 6],
        ],
        { segments: 12 },
      ),
      COLOURS.bakelite,
    ),
    paint(
      sweep(
        roundedPath(
          [
            [x - 20, y - 180, z],
            [x - 8, y - 230, z],
            [x + 60, y - 260, z],
            [x + 60, y - 700, z],
          ],
          36,
        ),
        9,
      ),
      COLOURS.rubber,
    ),
    wire(-9, '#6b4a33'),
    wire(0, '#9aa0a2'),
    wire(9, '#54707f'),
  ];
}

/** s: a blade that stands this soon after the stop is braked (common practice, no published source). */
const BRAKED = 10;

/** A brake on the tail of the motor: its drum, the lever that lifts it by hand, and its lead. */
function brake({ arbor }: Bench, { depth, floor }: Layout): Piece[] {
  if (arbor.runDown > BRAKED) return [];
  const [x, y, z] = [90, Math.max(floor + 190, -depth - 440), -90];
  return [
    paint(
      turned(
        [x, y, z],
        [0, 0, -1],
        [
          [0, 0],
          [0, 84],
          [10, 90],
          [50, 90],
          [58, 82],
          [58, 40],
          [64, 36],
          [64, 0],
        ],
        {
          segments: 28,
        },
      ),
      COLOURS.machine,
    ),
    {
      surface: 'steel',
      colour: COLOURS.groundSteel,
      solid: bar([x, y + 80, z - 34], [x - 34, y + 176, z - 34], 7, 10),
    },
    paint(
      movedSolid(box([-10, 0, -8], [10, 34, 8], 5), turnAbout('z', 0.34), [
        x - 30,
        y + 166,
        z - 34,
      ]),
      COLOURS.bakelite,
    ),
    paint(
      sweep(
        [
          [x + 60, y + 60, z - 30],
          [x + 110, y + 110, z - 10],
          [x + 120, y + 120, z + 60],
        ],
        6,
        8,
      ),
      COLOURS.rubber,
    ),
  ];
}
