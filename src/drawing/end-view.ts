import {
  type Bench,
  bladeFrame,
  bladeOutline,
  type Knife,
  knifeOutline,
  measureBench,
  toothStands,
} from '../bench/index.ts';
import type { Point } from '../geometry/index.ts';
import { levelDimension, uprightDimension } from './dimension.ts';
import { drawHatch } from './hatch.ts';
import { closedPath, node, openPath, shape } from './markup.ts';
import { type DimensionId, sizeOf } from './measures.ts';
import { guardShape } from './parts/guard-side.ts';
import { drawMouthGap, MOUTH_ROW, mouthClip } from './parts/mouth-end.ts';
import { drawStockEnd } from './parts/stock-end.ts';
import { drawPads, drawUnderPlates } from './parts/under-end.ts';
import { type BalloonSpot, placeBalloons } from './place-balloons.ts';
import { rectangle } from './rectangle.ts';
import { type Clip, makeSheet, type Sheet, TEXT } from './sheet.ts';
import type { PartLabel, ViewRequest } from './view.ts';

/*
 * The bench from the take-off end, cut across just behind the knife. Seen that way the operator's
 * right hand is on the left: model `x` here is minus the bench's `z`.
 */

/** Sizes the model does not hold, drawn to suit, mm. */
const GUARD_HALF = 26;
const GUARD_WALL = 4;
const FENCE_BREADTH = 38;
const SLAB = 32;
/** Room over the fence for the figure of its distance, where no guard stands higher. */
const OVER_FENCE = 14;

const WIDTHS: ReadonlySet<DimensionId> = new Set(['blade.kerf', 'blade.plate', 'knife.thickness']);
const MOUTH: ReadonlySet<DimensionId> = new Set(['insert.gapLeft', 'insert.gapRight']);

export function drawEndView(bench: Bench, request: ViewRequest): { sheet: Sheet; body: string } {
  const dimensions = request.dimensions ?? [];
  const isClose = request.clip === undefined && dimensions.some((id) => WIDTHS.has(id));
  const isMouth = dimensions.some((id) => MOUTH.has(id));
  const clip = request.clip ?? (isMouth ? mouthClip : isClose ? closeClip : wholeClip)(bench);
  const below = dimensions.filter((id) => id === 'knife.thickness' || id === 'blade.plate').length;
  const sheet = makeSheet(clip, {
    left: 0,
    right: 0,
    top: dimensions.includes('blade.kerf') ? 62 : 8,
    bottom: isMouth ? MOUTH_ROW : below === 0 ? 8 : 16 + 58 * below,
  });
  const model = sheet.model(
    drawTable(bench, sheet),
    drawStockEnd(bench, sheet),
    drawTeeth(bench, clip),
    drawKnife(bench, clip, sheet),
    drawPlate(bench, clip),
    drawGuard(bench, sheet),
    drawFence(bench, sheet),
    shape(
      openPath([
        { x: 0, y: clip.bottom },
        { x: 0, y: clip.top },
      ]),
      'centre',
    ),
  );
  const notes = dimensions.map((id) => drawDimension(bench, sheet, id)).join('');
  const spots = (request.labels ?? []).map((part) => labelSpot(bench, sheet, part));
  return { sheet, body: model + notes + placeBalloons(spots, notes, sheet) };
}

/** A few millimetres round the top of the stock, where plate, knife and cut can be told apart. */
function closeClip(bench: Bench): Clip {
  const { stock } = bladeFrame(bench);
  const half = bench.blade.kerf * 1.95;
  return { left: -half, right: half, bottom: stock - half * 0.62, top: stock + half * 0.5 };
}

function wholeClip(bench: Bench): Clip {
  const { tipRadius, depth } = bladeFrame(bench);
  const reach = bench.fence.face + FENCE_BREADTH + 40;
  const crown =
    bench.guard === null
      ? Math.max(tipRadius - depth, fenceHeight(bench) + OVER_FENCE)
      : guardShape(bench, bench.guard).crown;
  return { left: -reach, right: Math.max(150, reach * 0.6), bottom: -75, top: crown + 26 };
}

const hatched = (loop: readonly Point[], sheet: Sheet, spacing: number, angle: number): string =>
  drawHatch([loop], sheet.mm(spacing), angle);

function drawTable(bench: Bench, sheet: Sheet): string {
  const { clip } = sheet;
  const half = bench.blade.kerf / 2;
  // the list is [left, right] as the operator sees it; here right lies at smaller x
  const [left, right] = bench.insert.gaps;
  const { step, worn, firm } = bench.insert;
  const rise = firm === false ? 3 : 0;
  // chewed: the edge beside the blade is torn away in steps
  const edge = (z: number, away: 1 | -1): Point[] =>
    worn
      ? [
          { x: z, y: -12 },
          { x: z + away * 1.2, y: -9 },
          { x: z, y: -6 },
          { x: z + away * 2.6, y: step - 3 },
          { x: z + away * 1.6, y: step },
        ]
      : [
          { x: z, y: -12 },
          { x: z, y: step },
        ];
  const inserts = [
    [
      ...edge(half + left, 1),
      { x: half + left + 60, y: step + rise },
      { x: half + left + 60, y: -12 + rise },
    ],
    [
      ...edge(-half - right, -1),
      { x: -half - right - 60, y: step },
      { x: -half - right - 60, y: -12 },
    ],
  ];
  const tops = [
    rectangle(half + left + 60, clip.right + 20, -SLAB, 0),
    rectangle(clip.left - 20, -half - right - 60, -SLAB, 0),
  ];
  return node(
    'g',
    { class: 'table', 'data-part': 'table' },
    ...tops.map(
      (loop) => shape(closedPath(loop), 'outline', 'paper') + hatched(loop, sheet, 10, Math.PI / 4),
    ),
    ...inserts.map((loop) => shape(closedPath(loop), 'outline', 'iron', { 'data-part': 'insert' })),
    drawPads(bench),
    drawUnderPlates(bench),
  );
}

/** The rear teeth, seen beyond the knife: as wide as the cut, each tip at its own height. */
function drawTeeth(bench: Bench, clip: Clip): string {
  const { tipRadius, depth } = bladeFrame(bench);
  const half = bench.blade.kerf / 2;
  const top = tipRadius - depth;
  const stands = toothStands(bench.blade);
  const even = bench.blade.condition.set === 'even';
  const { plate } = bench.blade;
  const tips = bladeOutline(bench.blade)
    .teeth.filter(({ angle, state }) => Math.cos(angle) > 0 && state === 'whole')
    .map(({ angle, tip, index }) => ({
      y: Math.hypot(tip.x, tip.y) * Math.sin(angle) - depth,
      set: stands[index]?.set ?? 0,
    }))
    .filter(({ y }) => y > clip.bottom && y < clip.top);
  return node(
    'g',
    { class: 'teeth', 'data-part': 'teeth' },
    shape(closedPath(rectangle(-half, half, -depth, top)), 'outline', 'paper'),
    ...tips.map(({ y, set }) =>
      shape(
        openPath([
          { x: even ? -half : -set - plate / 2, y },
          { x: even ? half : -set + plate / 2, y },
        ]),
        'thin',
        'none',
        { 'data-part': 'tip' },
      ),
    ),
  );
}

/** The body of the blade, hidden behind the knife: dashed. */
function drawPlate(bench: Bench, clip: Clip): string {
  const half = bench.blade.plate / 2;
  const { tipRadius, depth } = bladeFrame(bench);
  const top = Math.min(clip.top + 10, tipRadius - depth - bench.blade.gulletDepth);
  if (top <= clip.bottom) return '';
  return shape(
    openPath([
      { x: -half, y: -depth },
      { x: -half, y: top },
      { x: half, y: top },
      { x: half, y: -depth },
    ]),
    'hidden',
    'none',
    { 'data-part': 'plate' },
  );
}

function drawKnife(bench: Bench, clip: Clip, sheet: Sheet): string {
  const { knife } = bench;
  if (knife === null) return '';
  const { tip } = knifeOutline(knife, bench.arbor.depth);
  const half = knife.thickness / 2;
  const centre = -knife.lateral;
  const loop = leant(rectangle(centre - half, centre + half, -95, tip.y), knife);
  // only the part in the picture is hatched, lest thousands of lines be drawn out of sight
  const shown = rectangle(
    centre - half,
    centre + half,
    Math.max(-95, clip.bottom),
    Math.min(tip.y, clip.top),
  );
  return node(
    'g',
    { class: 'knife' },
    shape(closedPath(loop), 'outline', 'steel', { 'data-part': 'knife' }),
    knife.condition === 'bent' ? '' : hatched(shown, sheet, 9, Math.PI / 4),
  );
}

/** mm a bent knife's tip leans to the right, which is the left here. */
const BEND = 5;

/** The knife's section from the end, bent over from the table up when it is bent. */
function leant([a, b, c, d]: readonly Point[], { condition }: Knife): Point[] {
  const corners = [a, b, c, d] as [Point, Point, Point, Point];
  if (condition !== 'bent') return corners;
  const [lowLeft, lowRight, topRight, topLeft] = corners;
  const side = (from: Point, to: Point): Point[] =>
    [0, 0.25, 0.5, 0.75, 1].map((share) => ({
      x: from.x - BEND * share * share,
      y: to.y * share,
    }));
  return [lowLeft, lowRight, ...side(lowRight, topRight), ...side(lowLeft, topLeft).toReversed()];
}

function drawGuard(bench: Bench, sheet: Sheet): string {
  const { guard } = bench;
  if (guard === null) return '';
  const { underside, crown } = guardShape(bench, guard);
  const low = underside - guard.sideDepth;
  const loop = [
    { x: -GUARD_HALF, y: low },
    { x: -GUARD_HALF, y: crown },
    { x: GUARD_HALF, y: crown },
    { x: GUARD_HALF, y: low },
    { x: GUARD_HALF - GUARD_WALL, y: low },
    { x: GUARD_HALF - GUARD_WALL, y: crown - GUARD_WALL },
    { x: -GUARD_HALF + GUARD_WALL, y: crown - GUARD_WALL },
    { x: -GUARD_HALF + GUARD_WALL, y: low },
  ];
  if (low > sheet.clip.top) return '';
  return node(
    'g',
    { class: 'guard', 'data-part': 'guard' },
    shape(closedPath(loop), 'outline', 'guard'),
    hatched(loop, sheet, 5, Math.PI / 4),
  );
}

/** mm above the table, to suit the stock. */
const fenceHeight = (bench: Bench): number => Math.max(40, bladeFrame(bench).stock * 1.2);

function drawFence(bench: Bench, sheet: Sheet): string {
  const face = -(bench.blade.kerf / 2 + bench.fence.face);
  if (face < sheet.clip.left) return '';
  const loop = rectangle(face - FENCE_BREADTH, face, 1.5, fenceHeight(bench));
  return node(
    'g',
    { class: 'fence', 'data-part': 'fence' },
    shape(closedPath(loop), 'outline', 'iron'),
    hatched(loop, sheet, 10, -Math.PI / 4),
  );
}

function drawDimension(bench: Bench, sheet: Sheet, id: DimensionId): string {
  const sized = sizeOf(bench, id);
  if (sized === null) return '';
  const { clip, at } = sheet;
  const { stock, tipRadius, depth } = bladeFrame(bench);
  const across = (centre: number, height: number): [Point, Point] => [
    at({ x: centre - sized.mm / 2, y: height }),
    at({ x: centre + sized.mm / 2, y: height }),
  ];
  const low = at({ x: 0, y: clip.bottom }).y;
  switch (id) {
    case 'blade.kerf':
      return levelDimension(sized, ...across(0, clip.top), 44);
    case 'knife.thickness':
      return levelDimension(sized, ...across(-(bench.knife?.lateral ?? 0), clip.bottom), low + 102);
    case 'blade.plate':
      return levelDimension(sized, ...across(0, clip.bottom), low + 44);
    case 'blade.projection': {
      const x = at({ x: GUARD_HALF, y: 0 }).x + 60;
      return uprightDimension(
        sized,
        at({ x: 0, y: 0 }),
        at({ x: 0, y: tipRadius - depth }),
        x,
        'right',
        0.8,
      );
    }
    case 'guard.clearance': {
      if (bench.guard === null) return '';
      const x = at({ x: GUARD_HALF, y: 0 }).x + 24;
      const { underside } = guardShape(bench, bench.guard);
      // beside a wide gap the figure stands in its middle, beside a narrow one over it
      const share = sized.mm * sheet.scale > TEXT * 2 ? 0.5 : 3.5;
      return uprightDimension(
        sized,
        at({ x: GUARD_HALF, y: stock }),
        at({ x: GUARD_HALF, y: underside }),
        x,
        'right',
        share,
      );
    }
    case 'insert.gapLeft':
      return drawMouthGap(bench, sheet, sized, 'left');
    case 'insert.gapRight':
      return drawMouthGap(bench, sheet, sized, 'right');
    case 'fence.face': {
      const half = bench.blade.kerf / 2;
      return levelDimension(
        sized,
        at({ x: -half - sized.mm, y: stock }),
        at({ x: -half, y: stock }),
        at({ x: 0, y: stock * 1.2 + 10 }).y - 14,
      );
    }
    default:
      return '';
  }
}

/** Where the balloon of a part stands; null when it is not to be seen here. */
function labelSpot(bench: Bench, sheet: Sheet, part: PartLabel): BalloonSpot | null {
  const { clip, at } = sheet;
  const { stock } = bladeFrame(bench);
  const measures = measureBench(bench);
  const isClose = clip.right - clip.left < 60;
  if (!isClose) return null;
  const low = (clip.bottom + stock) / 2;
  const high = (clip.top + stock) / 2;
  const kerf = bench.blade.kerf / 2;
  const knife = (bench.knife?.thickness ?? 0) / 2;
  switch (part) {
    case 'knife':
      return measures['knife.tipHeight'] === null
        ? null
        : {
            at: at({ x: kerf * 2.4, y: high }),
            target: at({ x: bench.blade.plate / 2 - 0.18, y: high - 0.4 }),
          };
    case 'blade':
      return {
        at: at({ x: -kerf * 2.2, y: high - sheet.mm(34) }),
        target: at({ x: -bench.blade.plate / 2, y: high - sheet.mm(34) }),
      };
    case 'teeth':
      return {
        at: at({ x: -kerf * 2.2, y: high + sheet.mm(34) }),
        target: at({ x: -(kerf + knife) / 2, y: high + sheet.mm(14) }),
      };
    case 'stock':
      return { at: at({ x: kerf * 2.6, y: low }), target: at({ x: kerf * 2.6, y: low }) };
    default:
      return null;
  }
}
