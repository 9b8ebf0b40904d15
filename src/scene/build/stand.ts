import type { Bench } from '../../bench/index.ts';
import { box } from '../shape/box.ts';
import type { Piece } from '../shape/pieces.ts';
import { prism } from '../shape/prism.ts';
import type { Solid, Vec } from '../shape/solid.ts';
import { bar, hexagon } from '../shape/turned.ts';
import { COLOURS } from '../surface/colours.ts';
import { APRON_IN, adjusterPieces } from './adjusters.ts';
import { type Layout, layoutOf, TABLE_THICKNESS } from './layout.ts';

const APRON = { drop: 118, wall: 14, inFrom: APRON_IN };

/** The frame under the table: apron, four legs, rails between them, feet, and the wheels that move the blade. */
export function standPieces(bench: Bench): Piece[] {
  const layout = layoutOf(bench);
  return [...apron(layout), ...legs(bench, layout), ...adjusterPieces(bench), ...ribs(layout)];
}

const paint = (solid: Solid, colour: string = COLOURS.machine): Piece => ({
  surface: 'enamel',
  colour,
  solid,
});

function apron({ tableFront, tableRear, halfWidth }: Layout): Piece[] {
  const [x0, x1] = [tableFront + APRON.inFrom, tableRear - APRON.inFrom];
  const w = halfWidth - APRON.inFrom;
  const [top, bottom] = [-TABLE_THICKNESS, -TABLE_THICKNESS - APRON.drop];
  const t = APRON.wall;
  return [
    paint(box([x0, bottom, -w], [x1, top, -w + t], 3)),
    paint(box([x0, bottom, w - t], [x1, top, w], 3)),
    paint(box([x0, bottom, -w + t], [x0 + t, top, w - t], 3)),
    paint(box([x1 - t, bottom, -w + t], [x1, top, w - t], 3)),
  ];
}

/** Stiffening ribs cast under the table top. */
function ribs({ tableFront, tableRear, halfWidth, mouth }: Layout): Piece[] {
  const w = halfWidth - APRON.inFrom - APRON.wall;
  const cross = [mouth.from - 40, mouth.to + 40].filter(
    (x) => x > tableFront + 70 && x < tableRear - 70,
  );
  const long = [-mouth.half - 60, mouth.half + 60];
  const y: readonly [number, number] = [-TABLE_THICKNESS - 46, -TABLE_THICKNESS];
  return [
    ...cross.map((x) => box([x - 7, y[0], -w], [x + 7, y[1], w], 2)),
    ...long.map((z) => box([tableFront + 50, y[0], z - 7], [tableRear - 50, y[1], z + 7], 2)),
  ].map((solid) => ({ surface: 'iron' as const, colour: COLOURS.ironEdge, solid }));
}

function legs(bench: Bench, layout: Layout): Piece[] {
  const { tableFront, tableRear, halfWidth, floor } = layout;
  const [x0, x1] = [tableFront + 92, tableRear - 92];
  const w = halfWidth - 74;
  const top = -TABLE_THICKNESS - APRON.drop + 12;
  const bolted = bench.place.foundation === 'bolted';
  const leg = (x: number, z: number): Piece[] => {
    const out = Math.sign(x - (x0 + x1) / 2) * 26;
    return [
      paint(
        prism({
          plane: 'side',
          outline: [
            { x: x - 44, y: top },
            { x: x + out - 34, y: floor + 16 },
            { x: x + out + 34, y: floor + 16 },
            { x: x + 44, y: top },
          ],
          from: z - 30,
          to: z + 30,
          chamfer: 6,
        }),
      ),
      paint(box([x + out - 62, floor, z - 52], [x + out + 62, floor + 18, z + 52], 4)),
      ...[-46, 46].map((dx): Piece => {
        const at: Vec = [x + out + dx, floor + 18, z + Math.sign(z) * 34];
        return bolted
          ? { surface: 'steel', colour: COLOURS.blackSteel, solid: hexagon(at, [0, 1, 0], 22, 14) }
          : paint(bar(at, [at[0], at[1] + 0.4, at[2]], 9, 12), COLOURS.bakelite);
      }),
      ...(bolted ? [] : wandered(x + out, z, floor)),
    ];
  };
  const low = floor + 150;
  return [
    ...[x0, x1].flatMap((x) => [-w, w].flatMap((z) => leg(x, z))),
    paint(box([x0 - 16, low, -w - 12], [x1 + 16, low + 52, -w + 12], 4)),
    paint(box([x0 - 16, low, w - 12], [x1 + 16, low + 52, w + 12], 4)),
    paint(box([x0 - 18, low, -w], [x0 + 6, low + 52, w], 4)),
    paint(box([x1 - 6, low, -w], [x1 + 18, low + 52, w], 4)),
  ];
}

/** A foot that is not held: bright rubbed floor where it has walked, and a wedge knocked under it. */
function wandered(x: number, z: number, floor: number): Piece[] {
  const side = Math.sign(z);
  return [
    ...[0, 1, 2].map(
      (i): Piece => ({
        surface: 'mark',
        colour: i === 1 ? '#dddad2' : '#8f8b83',
        solid: box(
          [x - 84 - i * 9, floor + 0.2, z + side * (58 + i * 12)],
          [x + 40 + i * 17, floor + 0.6, z + side * (64 + i * 12)],
        ),
      }),
    ),
    ...(x < 0
      ? [
          paint(
            prism({
              plane: 'end',
              outline: [
                { x: floor, y: z + side * 30 },
                { x: floor, y: z + side * 128 },
                { x: floor + 26, y: z + side * 128 },
              ],
              from: x - 40,
              to: x + 30,
            }),
            '#c9a773',
          ),
        ]
      : []),
  ];
}
