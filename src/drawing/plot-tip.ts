import { type Bench, bladeFrame } from '../bench/index.ts';
import { levelDimension } from './dimension.ts';
import { closedPath, openPath, shape } from './markup.ts';
import { circlePath } from './parts/blade-side.ts';
import { finishSheet, type Naming } from './plot-sheet.ts';
import { rectangle } from './rectangle.ts';
import { makeSheet, TEXT } from './sheet.ts';
import { words } from './text.ts';
import { ENGLISH } from './view.ts';

const SLAB = 32;

/**
 * The finished piece from the side at the moment the cut ends, its near end at the rear teeth: its
 * centre against the far edge of the table.
 */
export function drawTip(bench: Bench, naming: Naming): string {
  const { wording = ENGLISH } = naming;
  const { tipRadius, depth, halfAtTable, stock } = bladeFrame(bench);
  const { infeed, outfeed } = bench.table;
  const { length } = bench.job.stock;
  const centre = halfAtTable + length / 2;
  const right = Math.max(outfeed, halfAtTable + length);
  const room = (right + infeed) * 0.03;
  const projection = tipRadius - depth;
  const sheet = makeSheet(
    {
      left: -infeed - room,
      right: right + room,
      bottom: -SLAB - 10,
      top: Math.max(projection, stock) + 10,
    },
    { left: 0, right: 0, top: TEXT + 26, bottom: 2 * TEXT + 34 },
  );
  const { at } = sheet;
  const [edge, balance] = [at({ x: outfeed, y: -SLAB }), at({ x: centre, y: 0 })];
  const over = at({ x: centre, y: Math.max(stock, projection) }).y;
  const isLeft = balance.x < sheet.width / 2;
  return finishSheet(
    'tip',
    naming,
    sheet,
    sheet.model(
      shape(circlePath({ x: 0, y: -depth }, tipRadius), 'outline', 'steel', {
        'data-part': 'blade',
      }),
      shape(closedPath(rectangle(-infeed, outfeed, -SLAB, 0)), 'outline', 'iron', {
        'data-part': 'table',
      }),
      shape(
        closedPath(rectangle(halfAtTable, halfAtTable + length, 0, stock)),
        'outline',
        'timber',
        {
          'data-part': 'piece',
        },
      ),
    ),
    shape(
      openPath([
        { x: balance.x, y: over - 16 },
        { x: balance.x, y: edge.y + 20 },
      ]),
      'centre',
      'none',
      {
        'data-part': 'centre',
      },
    ),
    words(
      wording.centre,
      { x: balance.x + (isLeft ? -8 : 8), y: over - 22 },
      isLeft ? 'start' : 'end',
    ),
    levelDimension(
      { id: 'stock.tipsBy', mm: Math.abs(centre - outfeed) },
      { x: balance.x, y: edge.y + 4 },
      edge,
      edge.y + 36,
    ),
  );
}
