import { type Bench, bladeFrame, knifeOutline } from '../bench/index.ts';
import { arrowhead, levelDimension, thinLine, uprightDimension } from './dimension.ts';
import { drawHatch } from './hatch.ts';
import { closedPath, node, openPath, shape } from './markup.ts';
import { type DimensionId, sizeOf } from './measures.ts';
import { circlePath } from './parts/blade-side.ts';
import { drawDamage, drawOffcuts, slotOf } from './parts/table-plan.ts';
import { slotEnds } from './parts/table-side.ts';
import { type BalloonSpot, placeBalloons } from './place-balloons.ts';
import { rectangle } from './rectangle.ts';
import { type Clip, makeSheet, type Sheet, TEXT } from './sheet.ts';
import { words } from './text.ts';
import type { DrawnCut, PartLabel, ViewRequest } from './view.ts';

/*
 * The bench from above: operator at the left, so that their right hand, where the fence stands, is
 * toward the bottom. Model `y` here is minus the bench's `z`.
 */

const FENCE_BREADTH = 44;
const GUARD_HALF = 26;
/** Sheet units under the picture for the words at its two ends. */
const WORDS_ROW = 44;

/** mm: a person from above, half as wide as shoulders. */
const PERSON = 220;
/** mm: and half as deep from chest to back. */
const DEEP = 125;
/** mm to the side of the blade at which an operator is still shown. */
const OPERATOR_NEAR = 600;
/** mm of floor shown before the table, for the strip to keep clear. */
const FLOOR = 300;

function wholeClip(bench: Bench, cut: DrawnCut | undefined): Clip {
  const { front, rear } = slotEnds(bench);
  const reach = bench.blade.kerf / 2 + bench.fence.face + FENCE_BREADTH + 50;
  const { z } = bench.people.operator;
  /** mm to that side that shows the operator whole, should they stand near enough to be shown */
  const room = (side: 1 | -1): number =>
    cut === undefined || Math.abs(z) > OPERATOR_NEAR ? 0 : side * z + PERSON + 20;
  return {
    left:
      cut === undefined
        ? Math.min(front, bench.guard?.front ?? front) - 150
        : -bench.table.infeed - FLOOR,
    right: rear + 150,
    bottom: -Math.max(reach, room(1)),
    top: Math.max(130, reach * 0.6, room(-1)),
  };
}

export function drawPlanView(bench: Bench, request: ViewRequest): { sheet: Sheet; body: string } {
  const sheet = makeSheet(request.clip ?? wholeClip(bench, request.cut), {
    left: 0,
    right: 0,
    top: 8,
    bottom: WORDS_ROW,
  });
  const dimensions = request.dimensions ?? [];
  const { clip } = sheet;
  const model = sheet.model(
    drawTop(bench, clip),
    drawStrip(request.cut, sheet),
    drawStock(bench, sheet, request.cut?.lead),
    drawFence(bench, clip),
    drawBladeAndKnife(bench),
    bench.guard === null
      ? ''
      : shape(
          closedPath(rectangle(bench.guard.front, bench.guard.rear, -GUARD_HALF, GUARD_HALF)),
          'phantom',
          'none',
          { 'data-part': 'guard' },
        ),
    request.cut === undefined ? '' : drawPeople(bench),
    shape(
      openPath([
        { x: clip.left, y: 0 },
        { x: clip.right, y: 0 },
      ]),
      'centre',
    ),
  );
  const feedY = sheet.at({ x: 0, y: clip.top }).y + 60;
  const notes =
    words(request.wording.feed, { x: 16, y: feedY - 10 }) +
    thinLine({ x: 16, y: feedY }, { x: 90, y: feedY }) +
    arrowhead({ x: 96, y: feedY }, { x: 1, y: 0 }) +
    sayStrip(bench, request, sheet) +
    words(request.wording.operator, { x: 16, y: sheet.height - 14 }) +
    words(request.wording.takeOff, { x: sheet.width - 16, y: sheet.height - 14 }, 'end') +
    dimensions.map((id) => drawDimension(bench, sheet, id)).join('');
  const spots = (request.labels ?? []).map((part) => labelSpot(bench, sheet, part));
  return { sheet, body: model + notes + placeBalloons(spots, notes, sheet) };
}

function drawTop(bench: Bench, clip: Clip): string {
  const { front, rear } = slotEnds(bench);
  return node(
    'g',
    { class: 'table', 'data-part': 'table' },
    shape(
      closedPath(
        rectangle(-bench.table.infeed, bench.table.outfeed, clip.bottom - 50, clip.top + 50),
      ),
      'outline',
      'paper',
    ),
    shape(closedPath(rectangle(front - 30, rear + 30, -62, 62)), 'thin', 'iron', {
      'data-part': 'insert',
    }),
    shape(closedPath(slotOf(bench, front, rear)), 'thin', 'paper', { 'data-part': 'slot' }),
    bench.table.sound ? '' : drawDamage(bench, clip),
    bench.table.stained === true
      ? shape(circlePath({ x: -190, y: 112 }, 40), 'thin', 'none', { 'data-part': 'stain' })
      : '',
    bench.table.offcuts === true ? drawOffcuts(bench) : '',
  );
}

/** mm the strip is drawn past the axis of the blade. */
const STRIP_END = 0;

/** The strip a thrown piece leaves by, on table and floor: dashed and hatched, without end. */
function drawStrip(cut: DrawnCut | undefined, { clip, mm }: Sheet): string {
  if (!cut?.strip) return '';
  const { from, to } = cut.strip;
  const loop = rectangle(clip.left - mm(20), STRIP_END, -to, -from);
  return node(
    'g',
    { class: 'strip', 'data-part': 'strip' },
    shape(closedPath(loop), 'hidden'),
    drawHatch([loop], mm(16), -Math.PI / 4),
  );
}

/** Everybody at the bench from above, each as an oval across the feed. */
function drawPeople({ people }: Bench): string {
  const { operator, takeOff, bystander } = people;
  return [operator, takeOff, bystander ?? null]
    .filter((one) => one !== null)
    .map(({ x, z }) =>
      shape(
        closedPath(
          Array.from({ length: 32 }, (_, i) => ({
            x: x + DEEP * Math.cos((i * Math.PI) / 16),
            y: PERSON * Math.sin((i * Math.PI) / 16) - z,
          })),
        ),
        'outline',
        'none',
        { 'data-part': 'people' },
      ),
    )
    .join('');
}

function sayStrip({ table }: Bench, { cut, wording }: ViewRequest, { at, mm }: Sheet): string {
  if (!cut?.strip) return '';
  const middle = -(cut.strip.from + cut.strip.to) / 2 - mm(TEXT / 3);
  return words(wording.keepClear, at({ x: mm(14) - table.infeed, y: middle }));
}

/** The board part way through, with the kerf behind the teeth. */
function drawStock(bench: Bench, sheet: Sheet, fedTo?: number): string {
  const { halfAtTable } = bladeFrame(bench);
  const half = bench.blade.kerf / 2;
  const lead = fedTo ?? sheet.clip.right - sheet.mm(70);
  const start = Math.max(lead - bench.job.stock.length, sheet.clip.left - 20);
  const near = -half - bench.job.widthOfCut;
  const far = near + bench.job.stock.width;
  const front = Math.max(start, Math.min(lead, -halfAtTable));
  return shape(
    closedPath([
      { x: start, y: near },
      { x: lead, y: near },
      { x: lead, y: -half },
      { x: front, y: -half },
      { x: front, y: half },
      { x: lead, y: half },
      { x: lead, y: far },
      { x: start, y: far },
    ]),
    'outline',
    'timber',
    { 'data-part': 'stock', 'fill-opacity': 0.7 },
  );
}

/** The fence opens or closes by its toe, taken over the chord of the blade at the table. */
function drawFence(bench: Bench, clip: Clip): string {
  const { halfAtTable } = bladeFrame(bench);
  const { face, toe, end } = bench.fence;
  const faceAt = (x: number) =>
    -(bench.blade.kerf / 2 + face + (toe * (x + halfAtTable)) / (2 * halfAtTable));
  const left = clip.left - 20;
  // a face that is not straight: a dent a board's length before its end
  const dent =
    bench.fence.straight === false
      ? [
          [70, 0],
          [52, 5],
          [38, 5],
          [20, 0],
        ]
      : [];
  return shape(
    closedPath([
      { x: left, y: faceAt(left) },
      ...dent.map(([back, deep]) => ({
        x: end - (back as number),
        y: faceAt(end - (back as number)) - (deep as number),
      })),
      { x: end, y: faceAt(end) },
      { x: end, y: faceAt(end) - FENCE_BREADTH },
      { x: left, y: faceAt(left) - FENCE_BREADTH },
    ]),
    'outline',
    'iron',
    { 'data-part': 'fence' },
  );
}

function drawBladeAndKnife(bench: Bench): string {
  const { halfAtTable } = bladeFrame(bench);
  const { blade, knife, arbor } = bench;
  const parts = [
    shape(
      closedPath(rectangle(-halfAtTable, halfAtTable, -blade.plate / 2, blade.plate / 2)),
      'outline',
      'steel',
      { 'data-part': 'blade' },
    ),
  ];
  if (knife !== null) {
    const { atTable } = knifeOutline(knife, arbor.depth);
    const back = slotEnds(bench).rear - 24;
    const centre = -knife.lateral;
    parts.push(
      shape(
        closedPath(
          rectangle(atTable.x, back, centre - knife.thickness / 2, centre + knife.thickness / 2),
        ),
        'outline',
        'steel',
        { 'data-part': 'knife' },
      ),
    );
  }
  return parts.join('');
}

function drawDimension(bench: Bench, sheet: Sheet, id: DimensionId): string {
  const sized = sizeOf(bench, id);
  if (sized === null) return '';
  const { at, clip } = sheet;
  const { halfAtTable } = bladeFrame(bench);
  const half = bench.blade.kerf / 2;
  if (id === 'fence.face') {
    const x = at({ x: clip.left, y: 0 }).x + 172;
    const on = (y: number) => ({ x, y: at({ x: 0, y }).y });
    return uprightDimension(sized, on(-half), on(-half - sized.mm), x, 'left', 0.5);
  }
  if (id === 'fence.overrun') {
    const face = -half - bench.fence.face;
    return levelDimension(
      sized,
      at({ x: -halfAtTable, y: 0 }),
      at({ x: bench.fence.end, y: face }),
      at({ x: 0, y: face }).y + 34,
    );
  }
  return '';
}

/** Where the balloon of a part stands; null when it is not to be seen here. */
function labelSpot(bench: Bench, sheet: Sheet, part: PartLabel): BalloonSpot | null {
  const { at, clip, mm } = sheet;
  const { rear } = slotEnds(bench);
  const face = -(bench.blade.kerf / 2 + bench.fence.face);
  const high = clip.top - mm(34);
  // a fence that runs past the picture is named within it
  const fenceEnd = Math.min(bench.fence.end, clip.right - mm(40));
  switch (part) {
    case 'blade':
      return { at: at({ x: 0, y: high }), target: at({ x: 0, y: 0 }) };
    case 'knife':
      return { at: at({ x: rear - 40, y: high }), target: at({ x: rear - 40, y: 0 }) };
    case 'guard':
      return bench.guard === null
        ? null
        : { at: at({ x: -120, y: high }), target: at({ x: -120, y: GUARD_HALF }) };
    case 'fence':
      return {
        at: at({ x: fenceEnd + mm(110), y: face - 22 }),
        target: at({ x: fenceEnd - mm(30), y: face - 22 }),
      };
    case 'stock':
      return {
        at: at({ x: rear + mm(20), y: face * 0.6 }),
        target: at({ x: rear + mm(20), y: face * 0.6 }),
      };
    default:
      return null;
  }
}
