import { type Bench, bladeFrame, cutArc } from '../bench/index.ts';
import { type Point, pointAt } from '../geometry/index.ts';
import { arrowhead, thinLine } from './dimension.ts';
import { node, openPath, shape } from './markup.ts';
import { drawBladeSide, drawPictureEdge } from './parts/blade-side.ts';
import { drawStockSide } from './parts/stock-side.ts';
import { drawTableSide } from './parts/table-side.ts';
import { finishSheet, type Naming } from './plot-sheet.ts';
import { makeSheet, type Sheet, TEXT } from './sheet.ts';
import { words } from './text.ts';
import { ENGLISH } from './view.ts';

/** An angle at the arbor axis from the top of the blade toward the operator, as a direction. */
const towardOperator = (angle: number): number => Math.PI / 2 + angle;

/** An arc on the sheet through points a degree or so apart; `ends` in radians from the top. */
function arcOnSheet(sheet: Sheet, axis: Point, radius: number, from: number, to: number): Point[] {
  const steps = Math.max(2, Math.ceil(Math.abs(to - from) / 0.02));
  return Array.from({ length: steps + 1 }, (_, i) =>
    sheet.at(pointAt(axis, radius, towardOperator(from + ((to - from) * i) / steps))),
  );
}

const wayOf = (angle: number): Point => ({ x: -Math.cos(angle), y: Math.sin(angle) });

/** Which way a tooth travels at a point of its circle: an arrow of so many sheet units. */
function drawPath(at: Point, angle: number, length: number): string {
  const way = wayOf(angle);
  const tip = { x: at.x + way.x * length, y: at.y + way.y * length };
  return shape(openPath([at, tip]), 'outline') + arrowhead(tip, way);
}

const sayAngle = (angle: number): string => `${((angle * 180) / Math.PI).toFixed(1)}°`;

/** Room on the sheet for the words at the operator's side. */
const WORDS_AT = 10;

/**
 * The cut from the side, guard left off: the part of the tooth circle that is in the stock drawn
 * thick, the lines from the arbor axis to its two ends, and which way a tooth travels there.
 * Angles are those of `cutArc`, at the axis from the top of the blade.
 */
export function drawCut(bench: Bench, naming: Naming): string {
  const { wording = ENGLISH } = naming;
  const { tipRadius, depth, stock } = bladeFrame(bench);
  const projection = tipRadius - depth;
  const through = Math.min(stock, projection);
  const arc = cutArc(tipRadius, depth, through);
  const axis = { x: 0, y: -depth };
  const sheet = makeSheet(
    {
      left: -tipRadius * 1.75,
      right: tipRadius * 0.5,
      bottom: -depth - tipRadius * 0.24,
      top: Math.max(projection, stock) + tipRadius * 0.28,
    },
    { left: 0, right: 0, top: 8, bottom: 8 },
  );
  const { at } = sheet;
  const entry = pointAt(axis, tipRadius, towardOperator(arc.entry));
  const exit = pointAt(axis, tipRadius, towardOperator(arc.exit));
  const [hub, inAt, outAt] = [at(axis), at(entry), at(exit)];
  const high = at({ x: 0, y: projection + tipRadius * 0.2 });
  const spoke = { x: (inAt.x + hub.x) / 2, y: (inAt.y + hub.y) / 2 };
  const inWords = { x: WORDS_AT, y: at({ x: 0, y: stock }).y - 40 };
  const outWords = { x: WORDS_AT, y: at({ x: 0, y: -32 }).y + 34 + TEXT };
  return finishSheet(
    'cut',
    naming,
    sheet,
    sheet.model(
      drawTableSide(bench, sheet),
      drawStockSide(bench, sheet),
      drawBladeSide(bench),
      drawPictureEdge(bench, sheet.clip, sheet),
    ),
    shape(openPath([hub, high]), 'centre'),
    thinLine(hub, inAt),
    thinLine(hub, outAt),
    shape(openPath(arcOnSheet(sheet, axis, tipRadius, arc.entry, arc.exit)), 'outline', 'none', {
      class: 'l-outline plot-arc',
      'stroke-width': 5,
      'data-part': 'cut-arc',
    }),
    node(
      'g',
      { 'data-part': 'entry-angle' },
      shape(openPath(arcOnSheet(sheet, axis, tipRadius * 0.5, 0, arc.entry)), 'thin'),
      words(sayAngle(arc.entry), { x: spoke.x + 14, y: spoke.y - 14 }),
    ),
    shape(openPath(arcOnSheet(sheet, axis, tipRadius * 0.36, 0, arc.exit)), 'thin'),
    drawPath(inAt, arc.entry, 96),
    drawPath(outAt, arc.exit, 96),
    thinLine({ x: inWords.x + 60, y: inWords.y + 8 }, inAt),
    thinLine({ x: outWords.x + 70, y: outWords.y - TEXT }, outAt),
    words(wording.inAt.replace('{angle}', sayAngle(arc.entry)), inWords),
    words(wording.outAt.replace('{angle}', sayAngle(arc.exit)), outWords),
    words(wording.operator, { x: WORDS_AT, y: sheet.height - 14 }),
  );
}
