import { type Bench, bladeFrame, knifeOutline } from '../bench/index.ts';
import { halfChord, type Point } from '../geometry/index.ts';
import {
  arrowhead,
  gapDimension,
  levelDimension,
  thinLine,
  uprightDimension,
} from './dimension.ts';
import { type DimensionId, sizeOf } from './measures.ts';
import { drawBladeSide, drawPictureEdge, drawRotation } from './parts/blade-side.ts';
import { drawDriveSide } from './parts/drive-side.ts';
import { drawGuardSide, guardShape } from './parts/guard-side.ts';
import { drawKnifeCarrier, drawKnifeSide } from './parts/knife-side.ts';
import { drawFenceSide, drawStockSide } from './parts/stock-side.ts';
import { drawPacked, drawTableSide, drawUnderGuard, slotEnds } from './parts/table-side.ts';
import { placeBalloons } from './place-balloons.ts';
import { type Clip, makeSheet, roomInMm, type Sheet, TEXT } from './sheet.ts';
import { sideLabelSpots } from './side-labels.ts';
import { type Anchor, words } from './text.ts';
import type { DrawnCut, ViewRequest } from './view.ts';

/** mm: enough below the table to show that blade and knife run on. */
const BELOW_TABLE = -50;

/** mm over blade and stock for the words there, where no guard stands higher. */
const NO_GUARD = 90;

/** Whole bench end to end of the guard, from the bottom of the blade to the top of the posts. */
function wholeClip(bench: Bench, dimensions: readonly DimensionId[]): Clip {
  const { tipRadius, depth, stock } = bladeFrame(bench);
  const { front, rear } = slotEnds(bench);
  const guard = bench.guard;
  const left = Math.min(front, guard?.front ?? 0) - 150;
  const end = Math.max(rear, guard?.rear ?? 0);
  return {
    left,
    // an upright dimension needs room for its figure beside the line
    right:
      end + (dimensions.some((id) => UPRIGHT.has(id)) ? roomInMm(end - left, UPRIGHT_ROOM) : 150),
    bottom: -depth - tipRadius - 40,
    top:
      guard === null
        ? Math.max(tipRadius - depth, stock) + NO_GUARD
        : guardShape(bench, guard).top + 14,
  };
}

/** The bench from the side, cut along the blade: operator at the left, take-off at the right. */
export function drawSideView(bench: Bench, request: ViewRequest): { sheet: Sheet; body: string } {
  const dimensions = request.dimensions ?? [];
  const whole = wholeClip(bench, dimensions);
  const clip =
    request.clip ?? (request.crop === 'above-table' ? { ...whole, bottom: BELOW_TABLE } : whole);
  const rows = levelRows(dimensions);
  const sheet = makeSheet(clip, {
    left: 0,
    right: 0,
    top: 8,
    bottom: rows === 0 ? 8 : 18 + rows * LEVEL_ROW,
  });
  const model = sheet.model(
    drawUnderGuard(bench),
    drawTableSide(bench, sheet),
    drawKnifeCarrier(bench),
    drawStockSide(bench, sheet, request.cut?.lead),
    drawBladeSide(bench),
    drawDriveSide(bench),
    drawPacked(bench),
    drawRotation(bench, clip),
    drawKnifeSide(bench),
    drawGuardSide(isUnderGuard(bench, request.cut) ? bench : withoutWork(bench)),
    drawFenceSide(bench, sheet),
    drawPictureEdge(bench, clip, sheet),
  );
  const notes = drawDirections(bench, sheet, request) + drawDimensions(bench, sheet, dimensions);
  const spots = sideLabelSpots(bench, sheet, request.labels ?? []);
  return { sheet, body: model + notes + placeBalloons(spots, notes, sheet) };
}

/** Nobody feeds, or the work has come to the guard and lifts it. */
function isUnderGuard({ guard, job }: Bench, cut: DrawnCut | undefined): boolean {
  if (guard === null || cut === undefined) return true;
  return cut.lead > guard.front && cut.lead - job.stock.length < guard.rear;
}

/** mm of work a guard that rides is drawn down to when nothing lies under it. */
const NO_WORK = 0.5;
const withoutWork = (bench: Bench): Bench => ({
  ...bench,
  job: { ...bench.job, stock: { ...bench.job.stock, thickness: NO_WORK } },
});

const LEVEL: ReadonlySet<DimensionId> = new Set([
  'guard.leadFront',
  'guard.leadRear',
  'fence.overrun',
]);

const UPRIGHT: ReadonlySet<DimensionId> = new Set(['blade.projection', 'blade.aboveStock']);
/** Sheet units past the guard to an upright dimension, and the width of the longest figure. */
const UPRIGHT_AT = 58;
const LONGEST_FIGURE = 150;
const UPRIGHT_ROOM = UPRIGHT_AT + LONGEST_FIGURE + 30;
const LEVEL_ROW = 48;

/** The two leads of the guard share a row; the fence's overrun takes its own. */
const levelRows = (ids: readonly DimensionId[]): number =>
  (ids.some((id) => id.startsWith('guard.lead')) ? 1 : 0) + (ids.includes('fence.overrun') ? 1 : 0);

/** Who stands where, and which way the work goes. */
function drawDirections(bench: Bench, sheet: Sheet, { wording }: ViewRequest): string {
  const { stock } = bladeFrame(bench);
  const below = sheet.at({ x: 0, y: -32 }).y + 34;
  const feedY = sheet.at({ x: 0, y: stock }).y - 22;
  const from = { x: 16, y: feedY };
  const to = { x: 96, y: feedY };
  const canSayBelow = below < sheet.height - 10;
  return (
    (canSayBelow
      ? words(wording.operator, { x: 12, y: below }) +
        words(wording.takeOff, { x: sheet.width - 12, y: below }, 'end')
      : '') +
    thinLine(from, { x: to.x - 6, y: to.y }) +
    arrowhead(to, { x: 1, y: 0 }) +
    words(wording.feed, { x: 16, y: feedY - 10 })
  );
}

type Leader = {
  readonly from: Point;
  readonly to: Point;
  readonly via: Point;
  readonly anchor: Anchor;
};

/** Gap dimensions of the side view: the two ends on the model, and where the text hangs, mm. */
function gapLeader(bench: Bench, id: DimensionId, sheet: Sheet): Leader | null {
  const frame = bladeFrame(bench);
  if (id === 'knife.gapAtTable' && bench.knife !== null) {
    const { atTable } = knifeOutline(bench.knife, frame.depth);
    const reach = Math.hypot(atTable.x, atTable.y + frame.depth);
    const share = frame.tipRadius / reach;
    return {
      from: { x: atTable.x * share, y: (atTable.y + frame.depth) * share - frame.depth },
      to: atTable,
      via: { x: atTable.x + sheet.mm(90), y: sheet.mm(72) + frame.stock },
      anchor: 'start',
    };
  }
  if (id === 'guard.clearance' && bench.guard !== null) {
    const { underside, crown } = guardShape(bench, bench.guard);
    const x = bench.guard.front + sheet.mm(14);
    // over the hood's front end and over the word for the feed, the longest figure inside the sheet
    const leftmost = sheet.clip.left + sheet.mm(LONGEST_FIGURE + 24);
    return {
      from: { x, y: frame.stock },
      to: { x, y: underside },
      via: {
        x: Math.max(bench.guard.front + sheet.mm(24), leftmost),
        y: Math.max(crown + sheet.mm(26), frame.stock + sheet.mm(92)),
      },
      anchor: 'end',
    };
  }
  return null;
}

function drawDimensions(bench: Bench, sheet: Sheet, dimensionIds: readonly DimensionId[]): string {
  const frame = bladeFrame(bench);
  const { at } = sheet;
  return dimensionIds
    .map((id) => {
      const sized = sizeOf(bench, id);
      if (sized === null) return '';
      const gap = gapLeader(bench, id, sheet);
      if (gap !== null) {
        return gapDimension(sized, at(gap.from), at(gap.to), [at(gap.via)], gap.anchor);
      }
      if (LEVEL.has(id)) {
        const ends = levelEnds(bench, id);
        if (ends === null) return '';
        const row = id === 'fence.overrun' ? 1 : levelRows(dimensionIds);
        const y = sheet.height - LEVEL_ROW * row + 8;
        return levelDimension(sized, at(ends[0]), at(ends[1]), y);
      }
      const upright = uprightEnds(id, frame.tipRadius - frame.depth, frame.stock, frame);
      if (upright === null) return '';
      const x = at({ x: (bench.guard?.rear ?? frame.halfAtTable) + sheet.mm(UPRIGHT_AT), y: 0 }).x;
      const share = clearOfStock(upright, frame.stock, sheet);
      return uprightDimension(sized, at(upright[0]), at(upright[1]), x, 'right', share);
    })
    .join('');
}

/** Where along an upright dimension its figure stands clear of the stock's upper edge: over it, or past the top. */
function clearOfStock([from, to]: [Point, Point], stock: number, sheet: Sheet): number {
  const height = to.y - from.y;
  const over = to.y - stock;
  const middle = stock + over / 2 - from.y;
  const needed = sheet.mm(TEXT * 1.3);
  return over >= needed ? middle / height : 1 + needed / 2 / height;
}

function levelEnds(bench: Bench, id: DimensionId): [Point, Point] | null {
  const { halfAtTable } = bladeFrame(bench);
  const teeth = { x: -halfAtTable, y: 0 };
  if (id === 'fence.overrun') return [teeth, { x: bench.fence.end, y: 0 }];
  if (bench.guard === null) return null;
  const { underside } = guardShape(bench, bench.guard);
  return id === 'guard.leadFront'
    ? [{ x: bench.guard.front, y: underside }, teeth]
    : [
        { x: halfAtTable, y: 0 },
        { x: bench.guard.rear, y: underside },
      ];
}

function uprightEnds(
  id: DimensionId,
  projection: number,
  stock: number,
  { tipRadius, depth }: { tipRadius: number; depth: number },
): [Point, Point] | null {
  const top = { x: 0, y: projection };
  if (id === 'blade.projection') return [{ x: halfChord(tipRadius, depth), y: 0 }, top];
  if (id === 'blade.aboveStock') return [{ x: 0, y: stock }, top];
  return null;
}
