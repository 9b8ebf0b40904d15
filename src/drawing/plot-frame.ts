import type { Point } from '../geometry/index.ts';
import { node, openPath, shape } from './markup.ts';
import type { Box } from './plot-labels.ts';
import { type PlotRequest, type PlotText, valuesAlong } from './plot-request.ts';
import { inchTicks, makeScale, type Scale, type Tick } from './plot-scale.ts';
import { SHEET_WIDTH, TEXT } from './sheet.ts';
import { type Anchor, FIGURE_ADVANCE } from './text.ts';

/** Height of the field the curves are drawn in, sheet units. */
const FIELD_HEIGHT = 330;
const MOST_STEPS = { x: 6, y: 6 };
const TICK = 7;
/** Room over the field for the title of the upright axis, and under it for figures and title. */
const OVER = TEXT + 22;
const UNDER = 2 * TEXT + 48;

export type Axis = Scale & {
  readonly isLength: boolean;
  readonly inches: readonly Tick[];
};

export type Frame = {
  readonly x: Axis;
  readonly y: Axis;
  /** the field, sheet units */
  readonly field: Box;
  readonly height: number;
  /** from the units of the axes to the sheet */
  readonly at: (point: Point) => Point;
};

function makeAxis(request: PlotRequest, along: 'x' | 'y'): Axis {
  const scale = makeScale(valuesAlong(request, along), MOST_STEPS[along]);
  const isLength = request[along].unit === 'mm';
  return { ...scale, isLength, inches: isLength ? inchTicks(scale, MOST_STEPS[along]) : [] };
}

const widest = (ticks: readonly Tick[]): number =>
  Math.max(0, ...ticks.map(({ text }) => text.length)) * FIGURE_ADVANCE * TEXT;

export function makeFrame(request: PlotRequest): Frame {
  const x = makeAxis(request, 'x');
  const y = makeAxis(request, 'y');
  const half = widest([...x.ticks, ...x.inches]) / 2;
  const left = Math.max(widest([...y.ticks, ...y.inches]) + TICK + 12, half + 2);
  const field = {
    left,
    right: SHEET_WIDTH - half - 4,
    top: OVER,
    bottom: OVER + FIELD_HEIGHT,
  };
  const across = (field.right - field.left) / (x.to - x.from);
  const up = FIELD_HEIGHT / (y.to - y.from);
  return {
    x,
    y,
    field,
    height: field.bottom + UNDER,
    at: (point) => ({
      x: field.left + (point.x - x.from) * across,
      y: field.bottom - (point.y - y.from) * up,
    }),
  };
}

/** Words on the sheet; a text in both units is written twice, and the page shows one. */
export function plotWords(
  text: PlotText,
  at: Point,
  anchor: Anchor,
  face: 'word' | 'size' = 'word',
): string {
  const write = (words: string, unit: '' | ' mm' | ' inch') =>
    node(
      'text',
      {
        class: `${face}${unit}`,
        x: at.x,
        y: at.y,
        'text-anchor': anchor,
        'font-size': TEXT,
        fill: 'currentColor',
        stroke: 'none',
        display: unit === ' inch' ? 'none' : undefined,
      },
      words.replace(/&/g, '&amp;').replace(/</g, '&lt;').replace(/>/g, '&gt;'),
    );
  return typeof text === 'string'
    ? write(text, '')
    : write(text.mm, ' mm') + write(text.inch, ' inch');
}

const line = (kind: 'grid' | 'tick', from: Point, to: Point): string =>
  shape(openPath([from, to]), 'thin', 'none', { class: `l-thin plot-${kind}` });

type Side = 'x' | 'y';

function drawTicks(
  frame: Frame,
  side: Side,
  ticks: readonly Tick[],
  unit: 'mm' | 'inch' | '',
): string {
  const { field, at, x, y } = frame;
  const marks = ticks.map(({ value, text }) => {
    const on = at(side === 'x' ? { x: value, y: y.from } : { x: x.from, y: value });
    const end = side === 'x' ? { x: on.x, y: field.top } : { x: field.right, y: on.y };
    const out = side === 'x' ? { x: on.x, y: on.y + TICK } : { x: on.x - TICK, y: on.y };
    const words =
      side === 'x'
        ? ({ at: { x: on.x, y: on.y + 24 + TEXT * 0.75 }, anchor: 'middle' } as const)
        : ({ at: { x: on.x - TICK - 5, y: on.y + TEXT * 0.35 }, anchor: 'end' } as const);
    const said = node(
      'text',
      {
        class: unit === '' ? 'size' : `size ${unit}`,
        x: words.at.x,
        y: words.at.y,
        'text-anchor': words.anchor,
        'font-size': TEXT,
        fill: 'currentColor',
        stroke: 'none',
        display: unit === 'inch' ? 'none' : undefined,
      },
      text,
    );
    return node(
      'g',
      { 'data-tick': side, 'data-value': value },
      line('grid', on, end),
      line('tick', on, out),
      said,
    );
  });
  return node(
    'g',
    {
      class: unit === '' ? 'plot-scale' : `plot-scale ${unit}`,
      display: unit === 'inch' ? 'none' : undefined,
    },
    ...marks,
  );
}

/** The title of an axis with its unit, in both units where it is a length. */
export function axisTitle({ title, unit }: PlotRequest['x']): PlotText {
  if (unit === 'mm') return { mm: `${title}, mm`, inch: `${title}, inches` };
  return unit === '' ? title : `${title}, ${unit}`;
}

/** Grid, marks, figures and titles of both axes. */
export function drawFrame(frame: Frame, request: PlotRequest): string {
  const { field } = frame;
  const corner = { x: field.left, y: field.bottom };
  return (
    (['x', 'y'] as const)
      .map((side) => {
        const { ticks, inches, isLength } = frame[side];
        return (
          drawTicks(frame, side, ticks, isLength ? 'mm' : '') +
          (isLength ? drawTicks(frame, side, inches, 'inch') : '')
        );
      })
      .join('') +
    shape(
      openPath([{ x: field.left, y: field.top }, corner, { x: field.right, y: field.bottom }]),
      'outline',
      'none',
      { 'data-part': 'axes' },
    ) +
    plotWords(axisTitle(request.y), { x: 2, y: TEXT * 0.9 }, 'start') +
    plotWords(axisTitle(request.x), { x: SHEET_WIDTH - 4, y: frame.height - 10 }, 'end')
  );
}
