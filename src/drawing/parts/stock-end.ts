import { type Bench, bladeFrame } from '../../bench/index.ts';
import type { Point } from '../../geometry/index.ts';
import { drawHatch } from '../hatch.ts';
import { closedPath, node, shape } from '../markup.ts';
import { rectangle } from '../rectangle.ts';
import type { Sheet } from '../sheet.ts';

/** Directions in which the two halves of the stock are hatched, so that they are told apart. */
const NEAR_FENCE = 2.2;
const FREE_SIDE = 0.94;

/** The stock cut across, seen from the take-off end, with the kerf the teeth have made. A cut that does not come through leaves one piece. */
export function drawStockEnd(bench: Bench, sheet: Sheet): string {
  const { stock, tipRadius, depth } = bladeFrame(bench);
  const half = bench.blade.kerf / 2;
  const { widthOfCut, stock: piece } = bench.job;
  const far = half + Math.max(0, piece.width - widthOfCut - bench.blade.kerf);
  const near = -half - widthOfCut;
  const cut = tipRadius - depth;
  const piecesOf = (): [readonly Point[], number][] =>
    cut < stock
      ? [
          [
            [
              { x: near, y: 0 },
              { x: -half, y: 0 },
              { x: -half, y: cut },
              { x: half, y: cut },
              { x: half, y: 0 },
              { x: far, y: 0 },
              { x: far, y: stock },
              { x: near, y: stock },
            ],
            NEAR_FENCE,
          ],
        ]
      : [
          [rectangle(near, -half, 0, stock), NEAR_FENCE],
          [rectangle(half, far, 0, stock), FREE_SIDE],
        ];
  return node(
    'g',
    { class: 'stock', 'data-part': 'stock' },
    ...piecesOf().map(
      ([loop, angle]) =>
        shape(closedPath(loop), 'outline', 'timber') + drawHatch([loop], sheet.mm(15), angle),
    ),
  );
}
