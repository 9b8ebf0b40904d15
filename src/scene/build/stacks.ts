import type { Bench } from '../../bench/index.ts';
import { box } from '../shape/box.ts';
import type { Piece } from '../shape/pieces.ts';
import { COLOURS } from '../surface/colours.ts';
import { seededRandom } from '../surface/noise.ts';
import { layoutOf } from './layout.ts';
import { ROOM } from './place.ts';
import { SPECIES } from './stock.ts';

/** The work still to be sawn at the operator's left, and the work sawn by the take-off end. */
export function stackPieces(bench: Bench): Piece[] {
  const layout = layoutOf(bench);
  const { floor, tableFront, halfWidth, outfeed } = layout;
  const { stock, widthOfCut } = bench.job;
  const long = Math.min(stock.length, 1900);
  const z = -halfWidth - 620;
  const cut = Math.max(20, Math.min(widthOfCut, stock.width));
  return [
    ...stack(
      bench,
      [Math.max(ROOM.x0 + 300, tableFront - 420 - long), floor, z],
      [long, stock.width],
      3,
      5,
    ),
    ...stack(
      bench,
      [Math.min(outfeed + 120, ROOM.x1 - long - 150), floor, halfWidth * 0.2 + 560],
      [long, cut],
      2,
      7,
    ),
  ];
}

/** Boards of one size on two bearers, `high` layers deep. */
function stack(
  bench: Bench,
  [x, floor, z]: readonly [number, number, number],
  [long, wide]: readonly [number, number],
  high: number,
  seed: number,
): Piece[] {
  const random = seededRandom(seed);
  const thick = Math.min(bench.job.stock.thickness, 120);
  const breadth = Math.min(wide, 400);
  const across = Math.max(1, Math.min(4, Math.floor(480 / (breadth + 8))));
  const { long: colour } = SPECIES[bench.job.stock.kind] ?? (SPECIES.softwood as { long: string });
  const half = (across * (breadth + 8)) / 2 + 40;
  return [
    ...[0.15, 0.8].flatMap((share): Piece[] => [
      {
        surface: 'timber',
        colour: '#9c8259',
        solid: box(
          [x + long * share, floor, z - half],
          [x + long * share + 90, floor + 130, z + half],
          3,
        ),
      },
    ]),
    ...Array.from({ length: across * high }, (_, i): Piece => {
      const layer = Math.floor(i / across);
      const at = z - half + 40 + (i % across) * (breadth + 8);
      const shift = (random() - 0.5) * 30;
      const y = floor + 131 + layer * (thick + 1);
      return {
        surface: 'timber',
        colour: i % 3 === 1 ? COLOURS.stick : colour,
        solid: box([x + shift, y, at], [x + shift + long, y + thick, at + breadth], 1.2),
      };
    }),
  ];
}
