import { type Bench, bladeFrame, knifeOutline } from '../bench/index.ts';
import type { Point } from '../geometry/index.ts';
import { arrowhead, levelDimension, thinLine, uprightDimension } from './dimension.ts';
import { drawHatch } from './hatch.ts';
import { closedPath, node, openPath, shape } from './markup.ts';
import { circlePath } from './parts/blade-side.ts';
import { slotEnds } from './parts/table-side.ts';
import { finishSheet, type Naming } from './plot-sheet.ts';
import { rectangle } from './rectangle.ts';
import { makeSheet, roomInMm, type Sheet, TEXT } from './sheet.ts';
import { words } from './text.ts';
import { ENGLISH, type Wording } from './view.ts';

/** mm of z, from every x toward the operator without end. */
type Strip = { readonly from: number; readonly to: number };

/** A person from above: trunk and head, mm. */
const TRUNK_DEPTH = 250;
const HEAD = 95;
/** mm behind the blade past which a person is told and not drawn: the bench would be too small. */
const FURTHEST = 3000;
const FENCE_BREADTH = 44;

const ellipse = (centre: Point, along: number, across: number): Point[] =>
  Array.from({ length: 48 }, (_, i) => ({
    x: centre.x + along * Math.cos((i * Math.PI) / 24),
    y: centre.y + across * Math.sin((i * Math.PI) / 24),
  }));

/** @param width mm across the trunk */
function drawPerson({ x, z }: { x: number; z: number }, width: number, part: string): string {
  const centre = { x, y: -z };
  return node(
    'g',
    { 'data-part': part },
    shape(closedPath(ellipse(centre, TRUNK_DEPTH / 2, width / 2)), 'outline', 'paper'),
    shape(circlePath(centre, HEAD), 'outline', 'guard'),
  );
}

/** The fence as it stands, its toe taken over the chord of the blade at the table. */
function fenceBox(bench: Bench, left: number): Point[] {
  const { halfAtTable } = bladeFrame(bench);
  const { face, toe, end } = bench.fence;
  const faceAt = (x: number) =>
    -(bench.blade.kerf / 2 + face + (toe * (x + halfAtTable)) / (2 * halfAtTable));
  return [
    { x: left, y: faceAt(left) },
    { x: end, y: faceAt(end) },
    { x: end, y: faceAt(end) - FENCE_BREADTH },
    { x: left, y: faceAt(left) - FENCE_BREADTH },
  ];
}

/** The piece at the end of its cut, between blade and fence, and the other beyond the blade. */
function drawPieces(bench: Bench): string {
  const { halfAtTable } = bladeFrame(bench);
  const { kerf } = bench.blade;
  const { length, width } = bench.job.stock;
  const near = Math.min(bench.job.widthOfCut, width);
  const far = width - near - kerf;
  const start = -halfAtTable;
  const piece = (bottom: number, top: number, part: string) =>
    shape(closedPath(rectangle(start, start + length, bottom, top)), 'outline', 'timber', {
      'data-part': part,
    });
  return (
    piece(-kerf / 2 - near, -kerf / 2, 'piece') +
    (far > 0 ? piece(kerf / 2, kerf / 2 + far, 'offcut') : '')
  );
}

/**
 * The bench from above with the strip a thrown piece leaves by, hatched to the edge of the sheet
 * and on, because it has no end. The operator is at the left and the fence toward the bottom;
 * model `y` is minus the bench's `z`.
 * @param trunk mm across the body of a person, arms left out
 */
export function drawStrip(bench: Bench, strip: Strip, trunk: number, naming: Naming): string {
  const { wording = ENGLISH } = naming;
  const { operator, takeOff } = bench.people;
  const { halfAtTable } = bladeFrame(bench);
  const { rear } = slotEnds(bench);
  const half = bench.table.width / 2;
  const left = Math.min(-bench.table.infeed - 500, Math.max(operator.x, -FURTHEST) - 450);
  const shown = rear + 260;
  const isShown = operator.x >= -FURTHEST;
  const body = [operator.z - trunk / 2, operator.z + trunk / 2];
  const across = [...(isShown ? body : []), strip.from, strip.to];
  const sheet = makeSheet(
    {
      left: left - roomInMm(shown - left, 150),
      right: shown,
      bottom: -Math.max(...across, Math.min(half, strip.to + 140)) - roomInMm(shown - left, 44),
      top: -Math.min(...across, -Math.min(half, 260)) + roomInMm(shown - left, 36),
    },
    { left: 0, right: 0, top: 10, bottom: 2 * TEXT + 20 },
  );
  const { clip } = sheet;
  return finishSheet(
    'strip',
    naming,
    sheet,
    sheet.model(
      drawTop(bench, half),
      drawPieces(bench),
      shape(closedPath(fenceBox(bench, -bench.table.infeed)), 'outline', 'iron', {
        'data-part': 'fence',
      }),
      drawStretch(rectangle(clip.left - 50, -halfAtTable, -strip.to, -strip.from), sheet),
      drawBladeAndKnife(bench),
      isShown ? drawPerson(operator, trunk, 'operator') : '',
      takeOff === null ? '' : drawPerson(takeOff, trunk, 'taker-off'),
    ),
    drawNotes(bench, strip, sheet, wording),
    isShown
      ? drawOperatorNotes(operator, trunk, strip, sheet, wording)
      : words(wording.further, { x: WORDS_AT, y: sheet.height - TEXT }),
  );
}

const WORDS_AT = 12;

function drawTop(bench: Bench, half: number): string {
  const { front, rear } = slotEnds(bench);
  const { infeed, outfeed } = bench.table;
  return (
    shape(closedPath(rectangle(-infeed, outfeed, -half, half)), 'outline', 'paper', {
      'data-part': 'table',
    }) + shape(closedPath(rectangle(front, rear, -9, 9)), 'thin', 'paper')
  );
}

const drawStretch = (area: readonly Point[], sheet: Sheet): string =>
  node(
    'g',
    { 'data-part': 'strip' },
    shape(closedPath(area), 'phantom', 'none'),
    drawHatch([area], sheet.mm(16), Math.PI / 4),
  );

function drawBladeAndKnife(bench: Bench): string {
  const { halfAtTable } = bladeFrame(bench);
  const { blade, knife, arbor } = bench;
  const thick = blade.plate / 2;
  const disc = shape(
    closedPath(rectangle(-halfAtTable, halfAtTable, -thick, thick)),
    'outline',
    'ink',
    {
      'data-part': 'blade',
    },
  );
  if (knife === null) return disc;
  const ends = [
    { x: knifeOutline(knife, arbor.depth).atTable.x, y: -knife.lateral },
    { x: slotEnds(bench).rear - 24, y: -knife.lateral },
  ];
  return disc + shape(openPath(ends), 'outline', 'none', { 'data-part': 'knife' });
}

/** Which way it goes, how wide it is, and that nobody belongs in it. */
function drawNotes(bench: Bench, strip: Strip, { at }: Sheet, wording: Wording): string {
  const [far, near] = [at({ x: 0, y: -strip.from }).y, at({ x: 0, y: -strip.to }).y];
  const middle = (far + near) / 2;
  const dimensionAt = 92;
  return (
    thinLine({ x: 64, y: middle }, { x: 20, y: middle }) +
    arrowhead({ x: WORDS_AT, y: middle }, { x: -1, y: 0 }) +
    uprightDimension(
      { id: 'strip', mm: strip.to - strip.from },
      { x: dimensionAt, y: far },
      { x: dimensionAt, y: near },
      dimensionAt,
      'right',
    ) +
    words(wording.keepClear, { x: WORDS_AT, y: Math.max(near + TEXT, middle + TEXT * 1.5) }) +
    words(wording.fence, { x: at({ x: bench.fence.end, y: 0 }).x + 8, y: near + TEXT * 1.3 })
  );
}

/** How far back the operator stands; the name on the side away from the strip. */
function drawOperatorNotes(
  { x, z }: { x: number; z: number },
  trunk: number,
  strip: Strip,
  { at, clip }: Sheet,
  wording: Wording,
): string {
  const [over, under] = [at({ x, y: -z + trunk / 2 }), at({ x, y: -z - trunk / 2 })];
  const isBelow = z > (strip.from + strip.to) / 2;
  const name = isBelow ? under.y + TEXT : over.y - 8;
  return (
    levelDimension(
      { id: 'back', mm: -x },
      { x: under.x, y: isBelow ? name + 2 : under.y },
      at({ x: 0, y: 0 }),
      at({ x: 0, y: clip.bottom }).y + TEXT + 8,
    ) + words(wording.operator, { x: over.x, y: name }, 'middle')
  );
}
