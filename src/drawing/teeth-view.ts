import { asMounted, type Bench, bladeFrame, bladeOutline, toothStands } from '../bench/index.ts';
import type { Point } from '../geometry/index.ts';
import { closedPath, node, shape } from './markup.ts';
import { drawBladeSide } from './parts/blade-side.ts';
import { drawTableSide } from './parts/table-side.ts';
import { makeSheet, type Sheet } from './sheet.ts';
import { words } from './text.ts';
import type { ViewRequest } from './view.ts';

/** Sheet units under the picture for the points seen from above. */
const ROW = 128;
/** Sheet units the kerf takes there, so that a set of tenths of a millimetre can be seen. */
const KERF = 64;

/**
 * The front teeth close up from the fence side, guard and stock left out. The blade is turned, as by
 * hand, so that what is broken or cracked stands in the picture. Under it the same points from above,
 * drawn wider than they are, so that their set can be seen.
 */
export function drawTeethView(bench: Bench, request: ViewRequest): { sheet: Sheet; body: string } {
  const { tipRadius, depth, halfAtTable } = bladeFrame(bench);
  const clip = request.clip ?? {
    left: -halfAtTable - 26,
    right: -halfAtTable * 0.22,
    bottom: -26,
    top: tipRadius - depth + 8,
  };
  const sheet = makeSheet(clip, { left: 0, right: 0, top: 8, bottom: ROW });
  const turn = turnToFlaw(bench);
  const { blade } = bench;
  const mark = `max ${blade.maxSpeed}/min, ${blade.diameter}, Z${blade.teeth}`;
  return {
    sheet,
    body:
      sheet.model(drawTableSide(bench, sheet), drawBladeSide(bench, turn)) +
      (blade.condition.marked
        ? words(mark, { x: sheet.width - 14, y: sheet.at({ x: 0, y: 0 }).y - 16 }, 'end')
        : '') +
      words(request.wording.points, { x: 14, y: sheet.height - ROW + 34 }) +
      drawPoints(bench, sheet, turn),
  };
}

/** Radians that bring the first broken tooth or crack to the middle of the opening at the front. */
function turnToFlaw(bench: Bench): number {
  const { tipRadius, rootRadius, depth } = bladeFrame(bench);
  const { teeth, cracks } = bladeOutline(bench.blade);
  const torn = teeth.find(({ state }) => state !== 'whole');
  const line = cracks[0]?.[0];
  const angle = torn?.angle ?? (line === undefined ? null : Math.atan2(line.y, line.x));
  if (angle === null) return 0;
  const height = depth + (tipRadius - depth) * 0.4;
  const front = Math.PI - Math.asin(Math.min(1, height / rootRadius));
  return front - asMounted(bench.blade, angle);
}

/** The points in the picture from above: each leans to its side by its set, mid-plane between them. */
function drawPoints(bench: Bench, sheet: Sheet, turn: number): string {
  const { blade, arbor } = bench;
  const stands = toothStands(blade);
  const level = sheet.height - 44;
  const wide = KERF / blade.kerf;
  const points = bladeOutline(blade)
    .teeth.map((tooth) => {
      const angle = asMounted(blade, tooth.angle) + turn;
      const radius = Math.hypot(tooth.tip.x, tooth.tip.y);
      const tip = { x: radius * Math.cos(angle), y: radius * Math.sin(angle) - arbor.depth };
      return { ...tooth, at: sheet.at(tip), isShown: tip.y > 0 && tip.x < sheet.clip.right };
    })
    .filter(({ isShown, state }) => isShown && state === 'whole')
    .map(({ index, at }) => {
      const middle = level + (stands[index]?.set ?? 0) * wide;
      const half = (blade.plate / 2) * wide;
      const corners: Point[] = [
        { x: at.x - 5, y: middle - half },
        { x: at.x + 5, y: middle - half },
        { x: at.x + 5, y: middle + half },
        { x: at.x - 5, y: middle + half },
      ];
      return shape(closedPath(corners), 'thin', 'steel', { 'data-part': 'point' });
    });
  const across = shape(`M10 ${level}L${sheet.width - 10} ${level}`, 'centre');
  return node('g', { class: 'points' }, across, ...points);
}
