import type { Point } from '../geometry/index.ts';
import { escapeText, figure, type Line, node, openPath, shape } from './markup.ts';
import { drawFrame, type Frame, makeFrame, plotWords } from './plot-frame.ts';
import { type Box, boxOf, findSpot, type Segment, type Spot } from './plot-labels.ts';
import type { PlotLine, PlotRequest, PlotText } from './plot-request.ts';
import { SHEET_WIDTH, TEXT } from './sheet.ts';
import { WORD_ADVANCE } from './text.ts';

/** Curves are told apart by their lines, as on a drawing (ISO 128-2 kinds). */
const KINDS: readonly Line[] = ['outline', 'hidden', 'centre', 'phantom'];
const DOT = 7;
/** Room kept beside words, sheet units. */
const APART = 14;
/** Words a little wider than the average letter, so that a run of wide letters still fits. */
const LETTER = (WORD_ADVANCE + 0.03) * TEXT;

const textWidth = (text: PlotText): number =>
  (typeof text === 'string' ? text.length : Math.max(text.mm.length, text.inch.length)) * LETTER;

/** Points to the sheet, broken where the pen is lifted. */
function strokes(frame: Frame, points: readonly (Point | null)[]): Point[][] {
  const runs: Point[][] = [[]];
  for (const point of points) {
    if (point === null) runs.push([]);
    else runs[runs.length - 1]?.push(frame.at(point));
  }
  return runs.filter((run) => run.length > 0);
}

const segmentsOf = (run: readonly Point[]): Segment[] =>
  run.slice(1).map((to, i): Segment => [run[i] as Point, to]);

/** Beside a curve, from its end back to its start: over, under, and to both sides of each point. */
function besideCurve(points: readonly Point[]): Spot[] {
  const shares = Array.from({ length: 33 }, (_, i) => 0.97 - i * 0.029);
  return shares.flatMap((share): Spot[] => {
    const point = points[Math.round(share * (points.length - 1))];
    return point === undefined ? [] : roundPoint(point, 12);
  });
}

function roundPoint({ x, y }: Point, off: number): Spot[] {
  const over = y - off;
  const under = y + off + TEXT * 0.75;
  const level = y + TEXT * 0.35;
  return [
    { at: { x, y: over }, anchor: 'end' },
    { at: { x, y: over }, anchor: 'start' },
    { at: { x, y: under }, anchor: 'start' },
    { at: { x, y: under }, anchor: 'end' },
    { at: { x, y: over }, anchor: 'middle' },
    { at: { x, y: under }, anchor: 'middle' },
    { at: { x: x + off + 4, y: level }, anchor: 'start' },
    { at: { x: x - off - 4, y: level }, anchor: 'end' },
  ];
}

/** Along a straight line right across: beside an upright one, over or under a level one. */
function besideLine(frame: Frame, { axis, at }: PlotLine): Spot[] {
  const { field, x, y } = frame;
  const steps = [0.06, 0.16, 0.28, 0.4, 0.55, 0.7, 0.85, 0.95];
  if (axis === 'x') {
    const on = frame.at({ x: at, y: y.from }).x;
    return steps.flatMap((share): Spot[] => {
      const level = field.top + share * (field.bottom - field.top) + TEXT * 0.5;
      return [
        { at: { x: on + 10, y: level }, anchor: 'start' },
        { at: { x: on - 10, y: level }, anchor: 'end' },
      ];
    });
  }
  const on = frame.at({ x: x.from, y: at }).y;
  return steps.flatMap((share): Spot[] => {
    const across = field.right - share * (field.right - field.left);
    return [
      { at: { x: across, y: on - 9 }, anchor: 'end' },
      { at: { x: across, y: on + 9 + TEXT * 0.75 }, anchor: 'end' },
    ];
  });
}

function drawLine(frame: Frame, line: PlotLine): { markup: string; segment: Segment } {
  const { field, x, y } = frame;
  const on = frame.at({
    x: line.axis === 'x' ? line.at : x.from,
    y: line.axis === 'y' ? line.at : y.from,
  });
  const segment: Segment =
    line.axis === 'x'
      ? [
          { x: on.x, y: field.top },
          { x: on.x, y: field.bottom },
        ]
      : [
          { x: field.left, y: on.y },
          { x: field.right, y: on.y },
        ];
  const markup = shape(openPath(segment), 'hidden', 'none', {
    class: 'l-hidden plot-line',
    'data-line': line.axis,
    'data-at': line.at,
    'stroke-dasharray': '3 4',
  });
  return { markup, segment };
}

/** A dot, with thin lines down to the one axis and across to the other. */
function drawMark(frame: Frame, mark: Point): { markup: string; segments: Segment[] } {
  const on = frame.at(mark);
  const drop = [{ x: frame.field.left, y: on.y }, on, { x: on.x, y: frame.field.bottom }];
  const dot = { class: 'dot', cx: on.x, cy: on.y, r: DOT, fill: 'currentColor', 'data-mark': '' };
  return {
    markup:
      shape(openPath(drop), 'thin', 'none', { class: 'l-thin plot-drop' }) + node('circle', dot),
    segments: segmentsOf(drop),
  };
}

/**
 * A plot as line art, true to its values: one `<svg>` without script, style or ids. The ticks are
 * round numbers, a length has a scale in each unit, each curve carries its own name, and no words
 * cover other words. Put it in an element of class `drawing` and load `drawing.css` and `plot.css`;
 * give its values as a table beside it (`tabulatePlot`).
 * @throws RangeError when a value is not finite
 */
export function drawPlot(request: PlotRequest): string {
  const { curves, marks = [], lines = [] } = request;
  const frame = makeFrame(request);
  const drawn = curves.map(({ points }) => strokes(frame, points));
  const across = lines.map((line) => drawLine(frame, line));
  const drops = marks.map((mark) => drawMark(frame, mark));
  const own = drawn.map((runs) => runs.flatMap(segmentsOf));
  const segments = [
    ...own.flat(),
    ...across.map(({ segment }) => segment),
    ...drops.flatMap((drop) => drop.segments),
  ];
  const taken: Box[] = marks.map((mark) => {
    const { x, y } = frame.at(mark);
    return { left: x - DOT - 2, right: x + DOT + 2, top: y - DOT - 2, bottom: y + DOT + 2 };
  });
  const label = (text: PlotText, spots: readonly Spot[], named: readonly Segment[] = []) => {
    const width = textWidth(text);
    const around = { area: frame.field, taken, segments, own: named };
    const spot = findSpot(spots, width, TEXT, around);
    // crowded out: the name is still in the description and the table
    if (spot === null) return '';
    const box = boxOf(spot, width, TEXT);
    // the numbers of two curves side by side would read as one
    taken.push({ ...box, left: box.left - APART, right: box.right + APART });
    return plotWords(text, spot.at, spot.anchor);
  };
  const names = [
    ...marks.map((mark) => label(mark.label, roundPoint(frame.at(mark), DOT + 8))),
    ...lines.map((line) => label(line.label, besideLine(frame, line))),
    ...curves.map((curve, i) =>
      curve.label === '' ? '' : label(curve.label, besideCurve((drawn[i] ?? []).flat()), own[i]),
    ),
  ];
  return node(
    'svg',
    {
      xmlns: 'http://www.w3.org/2000/svg',
      class: 'bench-drawing plot',
      viewBox: `0 0 ${figure(SHEET_WIDTH)} ${figure(frame.height)}`,
      role: 'img',
      fill: 'none',
    },
    node('title', {}, escapeText(request.title)),
    node('desc', {}, escapeText(request.description)),
    drawFrame(frame, request),
    ...across.map(({ markup }) => markup),
    ...drops.map(({ markup }) => markup),
    ...curves.map(({ label: said, name = said }, i) =>
      (drawn[i] ?? [])
        .map((run) =>
          shape(openPath(run), KINDS[i % KINDS.length] as Line, 'none', {
            class: `l-${KINDS[i % KINDS.length]} plot-curve`,
            'stroke-width': 2,
            'data-curve': name,
          }),
        )
        .join(''),
    ),
    ...names,
  );
}
