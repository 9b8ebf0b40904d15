import type { Bench } from '../../bench/index.ts';
import type { Point } from '../../geometry/index.ts';
import { box } from '../shape/box.ts';
import { roundedRectangle } from '../shape/outlines.ts';
import type { Piece } from '../shape/pieces.ts';
import { prism } from '../shape/prism.ts';
import { bar, hexagon } from '../shape/turned.ts';
import { COLOURS } from '../surface/colours.ts';
import { type Layout, layoutOf, TABLE_THICKNESS } from './layout.ts';

/** The slot for a mitre gauge, mm: common practice, no source. */
export const SLOT = { z: -165, width: 19, depth: 9.5 };

/** The cast table with its mouth and slot, the outfeed extension, and the fence rail's fixings. */
export function tablePieces(bench: Bench): Piece[] {
  const layout = layoutOf(bench);
  return [...mainTable(layout), ...extension(layout, bench), ...edgeScrews(layout)];
}

const iron = (solid: Piece['solid'], mesh?: string): Piece => ({
  surface: 'iron',
  colour: COLOURS.plannedIron,
  solid,
  ...(mesh === undefined ? {} : { mesh }),
});

/** A plan rectangle for `prism`: (z, x). */
const plan = (x0: number, x1: number, z0: number, z1: number, radius = 0): Point[] =>
  radius === 0
    ? [
        { x: z0, y: x0 },
        { x: z1, y: x0 },
        { x: z1, y: x1 },
        { x: z0, y: x1 },
      ]
    : roundedRectangle([z0, x0], [z1, x1], radius, 5);

export const hasSlot = ({ halfWidth, mouth }: Layout): boolean =>
  SLOT.z - SLOT.width / 2 > -halfWidth + 30 && SLOT.z + SLOT.width / 2 < -mouth.half - 12;

function mainTable(layout: Layout): Piece[] {
  const { tableFront: x0, tableRear: x1, halfWidth: w, mouth } = layout;
  const slab = { plane: 'plan', from: -TABLE_THICKNESS, to: 0, chamfer: 1.6 } as const;
  const hole = plan(mouth.from, mouth.to, -mouth.half, mouth.half, 14);
  const rim = lip(mouth);
  if (!hasSlot(layout))
    return [
      iron(prism({ ...slab, outline: plan(x0, x1, -w, w), holes: [hole] }), 'table-top'),
      rim,
    ];
  const [left, right] = [SLOT.z - SLOT.width / 2, SLOT.z + SLOT.width / 2];
  return [
    iron(prism({ ...slab, outline: plan(x0, x1, -w, left) }), 'table-top'),
    iron(prism({ ...slab, outline: plan(x0, x1, right, w), holes: [hole] }), 'table-top'),
    {
      surface: 'iron',
      colour: COLOURS.ironEdge,
      solid: box([x0 + 2, -TABLE_THICKNESS + 2, left - 2], [x1 - 2, -SLOT.depth, right + 2]),
    },
    rim,
  ];
}

/** The ledge in the mouth that the insert lies on. */
function lip(mouth: Layout['mouth']): Piece {
  const ledge = 13;
  return {
    surface: 'iron',
    colour: COLOURS.ironEdge,
    solid: prism({
      plane: 'plan',
      from: -20,
      to: -9,
      outline: plan(mouth.from - 1, mouth.to + 1, -mouth.half - 1, mouth.half + 1, 14),
      holes: [
        plan(mouth.from + ledge, mouth.to - ledge, -mouth.half + ledge, mouth.half - ledge, 8),
      ],
    }),
  };
}

/** The rest of the outfeed: a lighter table bolted on behind, on its own strut. */
function extension(layout: Layout, bench: Bench): Piece[] {
  const { tableRear: x0, outfeed: x1, halfWidth: w, floor } = layout;
  if (x1 <= x0) return [];
  const drop = bench.table.level ? 0 : 4;
  const foot = floor;
  const strut = (z: number): Piece[] => [
    {
      surface: 'enamel',
      colour: COLOURS.machine,
      solid: box([x1 - 130, foot + 6, z - 22], [x1 - 86, -38, z + 22], 3),
    },
    {
      surface: 'steel',
      colour: COLOURS.blackSteel,
      solid: box([x1 - 150, foot, z - 42], [x1 - 66, foot + 7, z + 42], 1),
    },
  ];
  return [
    iron(box([x0 + 1, -30 - drop, -w], [x1, -drop, w], 1.6), 'table-extension'),
    {
      surface: 'enamel',
      colour: COLOURS.machine,
      solid: box([x0 + 20, -78, -w + 30], [x1 - 60, -31 - drop, -w + 60], 3),
    },
    {
      surface: 'enamel',
      colour: COLOURS.machine,
      solid: box([x0 + 20, -78, w - 60], [x1 - 60, -31 - drop, w - 30], 3),
    },
    ...strut(-w + 80),
    ...strut(w - 80),
    {
      surface: 'enamel',
      colour: COLOURS.machine,
      solid: box([x1 - 126, foot + 130, -w + 80], [x1 - 90, foot + 166, w - 80], 3),
    },
  ];
}

function edgeScrews({ tableFront: x, tableRear, halfWidth: w }: Layout): Piece[] {
  const along = Array.from({ length: 5 }, (_, i) => x + 90 + (i * (tableRear - x - 180)) / 4);
  const sides = along.flatMap((at) => [
    hexagon([at, -24, -w], [0, 0, -1], 13, 6),
    hexagon([at, -24, w], [0, 0, 1], 13, 6),
  ]);
  const jointBars = [-w + 130, 0, w - 130].map((z) =>
    bar([tableRear - 26, -60, z], [tableRear + 26, -60, z], 7),
  );
  return [...sides, ...jointBars].map((solid) => ({
    surface: 'steel',
    colour: COLOURS.blackSteel,
    solid,
  }));
}
