import type { Bench } from '../../bench/index.ts';
import { box } from '../shape/box.ts';
import type { Piece } from '../shape/pieces.ts';
import { prism } from '../shape/prism.ts';
import { movedSolid, turnAbout, type Vec } from '../shape/solid.ts';
import { bar, turned } from '../shape/turned.ts';
import { COLOURS } from '../surface/colours.ts';
import { layoutOf } from './layout.ts';
import { boxes } from './room-fittings.ts';

/** What lies on the table or in its place: tools, offcuts, and the bin for them. */
export function clutterPieces(bench: Bench): Piece[] {
  const layout = layoutOf(bench);
  const { halfAtTable, halfWidth, floor, tableRear } = layout;
  const { toolsOnTable, wasteBin } = bench.place;
  const boxAt: Vec = [tableRear - 330, floor, -halfWidth - 420];
  const laid: Vec = toolsOnTable
    ? [-halfAtTable * 0.4, 0, -halfWidth * 0.52]
    : [boxAt[0] - 150, floor + 566, boxAt[2]];
  return [
    ...toolBox(boxAt),
    ...tools(laid, toolsOnTable ? 'spread' : 'put-away'),
    ...(wasteBin ? bin([-1150, floor, halfWidth + 620]) : []),
  ];
}

/** An open tray on a stool, beside the bench. */
function toolBox([x, y, z]: Vec): Piece[] {
  return [
    ...boxes('timber', '#a98a62', [
      [x - 200, y + 520, z - 170, x + 200, y + 545, z + 170],
      ...[-170, 130].flatMap((u) =>
        [-140, 100].map((v) => [x + u, y, z + v, x + u + 40, y + 520, z + v + 40] as const),
      ),
    ]),
    ...boxes('timber', '#c4ab80', [
      [x - 190, y + 545, z - 120, x + 190, y + 555, z + 120],
      [x - 190, y + 555, z - 120, x + 190, y + 640, z - 106],
      [x - 190, y + 555, z + 106, x + 190, y + 640, z + 120],
      [x - 190, y + 555, z - 106, x - 176, y + 700, z + 106],
      [x + 176, y + 555, z - 106, x + 190, y + 700, z + 106],
    ]),
    {
      surface: 'timber',
      colour: '#8d7149',
      solid: bar([x - 180, y + 680, z], [x + 180, y + 680, z], 13, 10),
    },
  ];
}

/** A spanner for the spindle nut, a rule and a brush. */
function tools([x, y, z]: Vec, how: 'spread' | 'put-away'): Piece[] {
  const [turnA, turnB, turnC] = how === 'spread' ? [0.5, -0.22, 1.2] : [0.05, 0, 0.03];
  const [b, c]: Vec[] =
    how === 'spread'
      ? [
          [250, 0, -40],
          [360, 0, 60],
        ]
      : [
          [10, 14, 50],
          [30, 0, -55],
        ];
  const at = (piece: Piece, turn: number, shift: Vec): Piece => ({
    ...piece,
    solid: movedSolid(piece.solid, turnAbout('y', turn), [
      x + shift[0],
      y + shift[1],
      z + shift[2],
    ]),
  });
  const spanner: Piece = {
    surface: 'steel',
    colour: COLOURS.brightSteel,
    solid: prism({
      plane: 'plan',
      outline: [
        { x: -11, y: 0 },
        { x: 11, y: 0 },
        { x: 9, y: 190 },
        { x: 30, y: 214 },
        { x: 30, y: 256 },
        { x: 14, y: 262 },
        { x: 14, y: 232 },
        { x: -14, y: 232 },
        { x: -14, y: 262 },
        { x: -30, y: 256 },
        { x: -30, y: 214 },
        { x: -9, y: 190 },
      ],
      from: 0,
      to: 10,
      chamfer: 2,
    }),
  };
  const rule: Piece = {
    surface: 'steel',
    colour: COLOURS.groundSteel,
    solid: box([0, 0, -14], [300, 1.6, 14]),
  };
  const brush: Piece[] = [
    { surface: 'timber', colour: '#8d7149', solid: box([0, 22, -22], [290, 44, 22], 8) },
    { surface: 'enamel', colour: COLOURS.bakelite, solid: box([90, 0, -20], [280, 24, 20], 3) },
  ];
  return [
    at(spanner, turnA, [0, 0, 0]),
    at(rule, turnB, b as Vec),
    ...brush.map((piece) => at(piece, turnC, c as Vec)),
  ];
}

function bin(at: Vec): Piece[] {
  return [
    {
      surface: 'enamel',
      colour: COLOURS.boxDark,
      solid: turned(
        at,
        [0, 1, 0],
        [
          [0, 0],
          [0, 190],
          [10, 196],
          [560, 240],
          [566, 250],
          [580, 250],
          [580, 236],
          [40, 186],
          [40, 0],
        ],
        { segments: 28 },
      ),
    },
    // a few offcuts stand in it
    ...[-0.16, 0.05, 0.2].map(
      (lean, i): Piece => ({
        surface: 'timber',
        colour: i === 1 ? '#c9a773' : '#dcc08e',
        grain: 'y',
        solid: movedSolid(box([-25, 60, -18], [25, 640 + i * 60, 18], 1), turnAbout('z', lean), [
          at[0] + (i - 1) * 70,
          at[1],
          at[2] + i * 30 - 30,
        ]),
      }),
    ),
  ];
}
