import { type Bench, bladeFrame, knifeOutline } from '../../bench/index.ts';
import { type Point, pointAt } from '../../geometry/index.ts';
import { drawHatch } from '../hatch.ts';
import { closedPath, node, openPath, shape } from '../markup.ts';
import type { Clip, Sheet } from '../sheet.ts';

/** mm of cast top in section, and how far the slot runs past teeth and knife. */
const SLAB = 32;
const SLOT_ROOM = 24;

/** x of the two ends of the slot the blade and knife stand in. */
export function slotEnds(bench: Bench): { front: number; rear: number } {
  const { halfAtTable } = bladeFrame(bench);
  const knifeBack =
    bench.knife === null
      ? halfAtTable
      : Math.max(...knifeOutline(bench.knife, bench.arbor.depth).outline.map((p) => p.x));
  return { front: -halfAtTable - SLOT_ROOM, rear: Math.max(halfAtTable, knifeBack) + SLOT_ROOM };
}

/** A level end, or a broken one where the part runs on out of the picture. */
function end(x: number, bottom: number, top: number, isBroken: boolean): Point[] {
  if (!isBroken)
    return [
      { x, y: bottom },
      { x, y: top },
    ];
  const step = (top - bottom) / 4;
  return [0, 1, 2, 3, 4].map((i) => ({
    x: x + (i % 2 === 0 ? 0 : (i === 1 ? 1 : -1) * Math.min(7, step * 0.6)),
    y: bottom + step * i,
  }));
}

/** A bar lying along the feed, with a break where the picture cuts it short. Closed outline. */
export function lyingBar(
  left: number,
  right: number,
  bottom: number,
  top: number,
  clip: Clip,
  inset: number,
): Point[] {
  const shownLeft = Math.max(left, clip.left + inset);
  const shownRight = Math.min(right, clip.right - inset);
  return [
    ...end(shownRight, bottom, top, shownRight < right),
    ...end(shownLeft, bottom, top, shownLeft > left).toReversed(),
  ];
}

/** The table cut along the blade plane: hatched before and behind the slot, the insert's edge beyond. */
export function drawTableSide(bench: Bench, sheet: Sheet): string {
  const { table, insert } = bench;
  const { front, rear } = slotEnds(bench);
  const inset = sheet.mm(8);
  const halves = [
    lyingBar(-table.infeed, front, -SLAB, 0, sheet.clip, inset),
    lyingBar(rear, table.outfeed, -SLAB, 0, sheet.clip, inset),
  ];
  return node(
    'g',
    { class: 'table', 'data-part': 'table' },
    shape(
      closedPath([
        { x: front, y: insert.step },
        { x: rear, y: insert.step },
        { x: rear, y: insert.step - 9 },
        { x: front, y: insert.step - 9 },
      ]),
      'thin',
      'iron',
    ),
    ...halves.map((loop) => shape(closedPath(loop), 'outline', 'paper')),
    drawHatch(halves, sheet.mm(10), Math.PI / 4),
  );
}

/** The enclosure under the table, seen beyond the blade. */
export function drawUnderGuard(bench: Bench): string {
  const { tipRadius, depth } = bladeFrame(bench);
  if (bench.underGuard === 'none') return '';
  const axis = { x: 0, y: -depth };
  const { front, rear } = slotEnds(bench);
  const radius = tipRadius + 26;
  const round = Array.from({ length: 33 }, (_, i) =>
    pointAt(axis, radius, Math.PI + (Math.PI * i) / 32),
  );
  const side = (x: number): Point => ({ x, y: -SLAB });
  const outline = [side(Math.min(-radius, front)), ...round, side(Math.max(radius, rear))];
  const plates = bench.underGuard === 'side-plates' ? 'hidden' : 'thin';
  const spigot =
    bench.underGuard === 'extraction-hood'
      ? shape(
          openPath([
            { x: 45, y: -depth - radius - 40 },
            { x: 45, y: -depth - radius + 6 },
          ]),
          'thin',
        ) +
        shape(
          openPath([
            { x: -45, y: -depth - radius - 40 },
            { x: -45, y: -depth - radius + 6 },
          ]),
          'thin',
        )
      : '';
  return node(
    'g',
    { class: 'under-guard', 'data-part': 'under-guard' },
    shape(openPath(outline), plates),
    spigot,
  );
}

/** Chips packed round the blade under the table. */
export function drawPacked(bench: Bench): string {
  if (bench.underPacked !== true) return '';
  const { halfAtTable } = bladeFrame(bench);
  const steps = 26;
  const hang = Array.from({ length: steps + 1 }, (_, i) => {
    const share = i / steps;
    const deep = SLAB + 62 * Math.sin(Math.PI * share) * (i % 2 === 0 ? 1 : 0.72);
    return { x: (share - 0.5) * 1.9 * halfAtTable, y: -deep };
  });
  return shape(closedPath(hang), 'thin', 'timber', {
    'data-part': 'chips',
    'fill-opacity': 0.75,
  });
}
