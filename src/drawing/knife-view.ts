import {
  type Bench,
  bladeFrame,
  type Knife,
  knifeEdge,
  knifeOutline,
  measureBench,
  toothAngle,
} from '../bench/index.ts';
import { distance, type Point, pointAt } from '../geometry/index.ts';
import { gapDimension, uprightDimension } from './dimension.ts';
import { openPath, shape } from './markup.ts';
import { type DimensionId, sizeOf } from './measures.ts';
import { drawBladeSide } from './parts/blade-side.ts';
import { drawKnifeCarrier, drawKnifeSide } from './parts/knife-side.ts';
import { drawTableSide, slotEnds } from './parts/table-side.ts';
import { type BalloonSpot, placeBalloons } from './place-balloons.ts';
import { type Clip, makeSheet, roomInMm, type Sheet } from './sheet.ts';
import { words } from './text.ts';
import type { PartLabel, ViewRequest } from './view.ts';

/**
 * The riving knife and the rear teeth, close up, guard and stock left out. The blade is turned so
 * that a tooth points straight at the knife where it meets the table, as it would be by hand before
 * measuring.
 */
export function drawKnifeView(bench: Bench, request: ViewRequest): { sheet: Sheet; body: string } {
  const { knife } = bench;
  const dimensions = request.dimensions ?? [];
  const clip = request.clip ?? closeClip(bench, dimensions);
  const sheet = makeSheet(clip, { left: 0, right: 0, top: 12, bottom: 8 });
  const model = sheet.model(
    drawTableSide(bench, sheet),
    drawKnifeCarrier(bench),
    drawBladeSide(bench, turnToKnife(bench)),
    drawKnifeSide(bench),
    shape(
      openPath([
        { x: clip.left, y: 0 },
        { x: clip.right, y: 0 },
      ]),
      'thin',
      'none',
      { 'data-part': 'table-level' },
    ),
    knife !== null && dimensions.some((id) => id.startsWith('knife.gap'))
      ? drawSpoke(bench, knife)
      : '',
  );
  const notes =
    words(
      request.wording.takeOff,
      { x: sheet.width - 12, y: sheet.at({ x: 0, y: 0 }).y - 12 },
      'end',
    ) + dimensions.map((id) => drawDimension(bench, sheet, id)).join('');
  const spots = (request.labels ?? []).map((part) => labelSpot(bench, sheet, part));
  return { sheet, body: model + notes + placeBalloons(spots, notes, sheet) };
}

/** mm shown above the table at the least: the figure of the gap stands there, however low the blade. */
const LEAST_TOP = 40;
/** Sheet units behind the knife for the longest figure of a gap. */
const FIGURE_ROOM = 130;

/** From the top of the blade, when its drop is asked for, to a little past the back of the knife. */
function closeClip(bench: Bench, dimensions: readonly DimensionId[]): Clip {
  const { tipRadius, depth, halfAtTable } = bladeFrame(bench);
  const showsTop = dimensions.includes('knife.tipDrop') || dimensions.includes('knife.tipHeight');
  const left = showsTop ? -tipRadius * 0.16 : halfAtTable * 0.45;
  const back = slotEnds(bench).rear;
  return {
    left,
    right: back + Math.max(44, roomInMm(back - left, FIGURE_ROOM)),
    bottom: -52,
    top: Math.max(tipRadius - depth + 16, LEAST_TOP),
  };
}

/** Radians that bring the nearest tooth onto the line from the arbor to the knife at the table. */
function turnToKnife(bench: Bench): number {
  if (bench.knife === null) return 0;
  const { atTable } = knifeOutline(bench.knife, bench.arbor.depth);
  const pitch = (2 * Math.PI) / bench.blade.teeth;
  const wanted = Math.atan2(atTable.y + bench.arbor.depth, atTable.x);
  const short = (wanted - toothAngle(bench.blade.teeth, 0)) % pitch;
  return short;
}

/** Straight out from the arbor: the line a radial gap is measured along. Model markup. */
function drawSpoke(bench: Bench, knife: Knife): string {
  const axis = { x: 0, y: -bench.arbor.depth };
  const { atTable } = knifeOutline(knife, bench.arbor.depth);
  return shape(openPath([axis, atTable]), 'centre', 'none', { 'data-part': 'spoke' });
}

/** The two ends of a radial gap: on the tooth circle and on the knife's edge, mm. */
export function radialGap(
  bench: Bench,
  knife: Knife,
  id: 'knife.gapAtTable' | 'knife.gapMax' | 'knife.gapMin',
): [Point, Point] {
  const { tipRadius, depth } = bladeFrame(bench);
  const axis = { x: 0, y: -depth };
  const edge = knifeEdge(knife, depth);
  const ends = [
    pointAt(edge.centre, edge.radius, edge.from),
    pointAt(edge.centre, edge.radius, edge.to),
  ];
  const away = Math.atan2(edge.centre.y - axis.y, edge.centre.x - axis.x);
  const turned = [away, away + Math.PI].flatMap((angle) =>
    [-2, 0, 2]
      .map((turns) => angle + turns * Math.PI)
      .filter((a) => a >= edge.from && a <= edge.to),
  );
  const candidates = [...ends, ...turned.map((angle) => pointAt(edge.centre, edge.radius, angle))];
  const wanted = measureBench(bench)[id] as number;
  const nearest = candidates.reduce((best, point) =>
    Math.abs(distance(point, axis) - tipRadius - wanted) <
    Math.abs(distance(best, axis) - tipRadius - wanted)
      ? point
      : best,
  );
  const onEdge = id === 'knife.gapAtTable' ? (ends[0] as Point) : nearest;
  const share = tipRadius / distance(onEdge, axis);
  return [
    { x: axis.x + (onEdge.x - axis.x) * share, y: axis.y + (onEdge.y - axis.y) * share },
    onEdge,
  ];
}

function drawDimension(bench: Bench, sheet: Sheet, id: DimensionId): string {
  const sized = sizeOf(bench, id);
  const { knife } = bench;
  if (sized === null || knife === null) return '';
  const { tipRadius, depth } = bladeFrame(bench);
  const { outline, tip } = knifeOutline(knife, depth);
  const { at, mm } = sheet;
  const backAtTable = slotEnds(bench).rear - 24;
  const topEnd = Math.max(...outline.filter((p) => Math.abs(p.y - tip.y) < 1e-9).map((p) => p.x));
  switch (id) {
    case 'knife.gapAtTable':
    case 'knife.gapMin':
    case 'knife.gapMax': {
      const [from, to] = radialGap(bench, knife, id);
      // the figure stands clear of the knife's back, at the height of the gap or a little over
      const rise = id === 'knife.gapAtTable' ? 62 : 150;
      const via = {
        x: backAtTable - mm(id === 'knife.gapAtTable' ? -12 : 44),
        y: Math.max(0, to.y) + mm(rise),
      };
      return gapDimension(sized, at(from), at(to), [at(via)], 'start');
    }
    case 'knife.tipDrop':
      return uprightDimension(
        sized,
        at({ x: 0, y: tipRadius - depth }),
        at({ x: topEnd, y: tip.y }),
        at({ x: topEnd, y: 0 }).x + 46,
        'right',
      );
    case 'knife.tipHeight':
      return uprightDimension(
        sized,
        at({ x: backAtTable, y: 0 }),
        at({ x: topEnd, y: tip.y }),
        sheet.width - 172,
        'right',
        0.35,
      );
    default:
      return '';
  }
}

/** Where the balloon of a part stands; null when it is not to be seen here. */
function labelSpot(bench: Bench, sheet: Sheet, part: PartLabel): BalloonSpot | null {
  const { tipRadius, depth } = bladeFrame(bench);
  const outline = bench.knife === null ? null : knifeOutline(bench.knife, depth);
  const { clip, at, mm } = sheet;
  const middle = (clip.left + clip.right) / 2;
  if (part === 'blade') {
    const point = { x: clip.left + mm(120), y: -depth + tipRadius * 0.66 };
    return { at: at(point), target: at(point) };
  }
  if (part === 'knife' && outline !== null) {
    const target = { x: outline.tip.x + 60, y: outline.tip.y - 16 };
    return { at: at({ x: target.x + mm(150), y: target.y + mm(6) }), target: at(target) };
  }
  if (part === 'table') {
    return {
      at: at({ x: clip.right - mm(60), y: -mm(96) }),
      target: at({ x: clip.right - mm(50), y: -16 }),
    };
  }
  return part === 'teeth'
    ? {
        at: at({ x: middle - mm(150), y: mm(60) }),
        target: at({ x: bladeFrame(bench).halfAtTable - 6, y: mm(4) }),
      }
    : null;
}
