import { type Bench, bladeFrame } from '../../bench/index.ts';
import { halfChord, type Point } from '../../geometry/index.ts';
import { closedPath, node, openPath, shape } from '../markup.ts';
import type { Sheet } from '../sheet.ts';
import { lyingBar } from './table-side.ts';

/** The kerf's front: down the tooth circle from the top of the cut to the table. */
function kerfFront(bench: Bench): Point[] {
  const { tipRadius, depth, stock } = bladeFrame(bench);
  const high = Math.min(stock, tipRadius - depth);
  return Array.from({ length: 13 }, (_, i) => {
    const y = high * (1 - i / 12);
    return { x: -halfChord(tipRadius, depth + y), y };
  });
}

/** Grain: level lines that wander a little, a third of the way and two thirds up. */
function grain(left: number, right: number, bottom: number, top: number): string {
  return [0.22, 0.5, 0.78]
    .map((share, row) => {
      const y = bottom + (top - bottom) * share;
      const wave = (top - bottom) * 0.035;
      const points = Array.from({ length: 17 }, (_, i) => ({
        x: left + ((right - left) * i) / 16,
        y: y + wave * Math.sin(i * 0.9 + row * 2.1),
      }));
      return shape(openPath(points), 'grain');
    })
    .join('');
}

/**
 * Stock part way through the cut: the wall of the kerf beyond the blade, and, before the teeth, the
 * wood not yet cut, in section along the grain.
 * @param fedTo mm, x of its leading end; somewhere past the blade when nobody feeds it
 */
export function drawStockSide(bench: Bench, sheet: Sheet, fedTo: number | null = null): string {
  const { tipRadius, depth, stock } = bladeFrame(bench);
  const inset = sheet.mm(20);
  const lead = fedTo ?? Math.max(sheet.clip.right - sheet.mm(64), tipRadius * 0.3);
  const start = lead - bench.job.stock.length;
  const isSeen = lead > sheet.clip.left + inset && start < sheet.clip.right - inset;
  if (!isSeen) return '';
  const whole = lyingBar(start, lead, 0, stock, sheet.clip, inset);
  const left = Math.max(start, sheet.clip.left + inset);
  const front = kerfFront(bench).map(({ x, y }) => ({ x: Math.min(x, lead), y }));
  const first = front[0] as Point;
  const projection = tipRadius - depth;
  const brokenEnd = whole.filter((p) => p.x < left + sheet.mm(12));
  // a blade that does not come through leaves wood above it all the way along
  const over =
    stock > projection
      ? [
          { x: lead, y: projection },
          { x: lead, y: stock },
        ]
      : [{ x: first.x, y: stock }];
  const uncut = [...brokenEnd, ...front.toReversed(), ...over];
  return node(
    'g',
    { class: 'stock', 'data-part': 'stock' },
    shape(closedPath(whole), 'outline', 'timber', {
      'data-part': 'kerf-wall',
      'fill-opacity': 0.45,
    }),
    left < first.x
      ? shape(closedPath(uncut), 'thin', 'timber') +
          grain(left + sheet.mm(10), front[front.length - 1]!.x - sheet.mm(6), 0, stock)
      : '',
  );
}

/** The rip fence stands in front of the picture plane: a phantom outline. */
export function drawFenceSide(bench: Bench, sheet: Sheet): string {
  const height = Math.max(12, Math.min(60, bladeFrame(bench).stock * 0.62));
  const left = sheet.clip.left - 10;
  const { end } = bench.fence;
  if (end <= sheet.clip.left) return '';
  return shape(
    openPath([
      { x: left, y: height },
      { x: end, y: height },
      { x: end, y: 0 },
    ]),
    'phantom',
    'none',
    { 'data-part': 'fence' },
  );
}
