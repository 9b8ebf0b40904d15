import type { Point } from '../geometry/index.ts';

/** Words that name a length, in each unit; the page shows one. */
export type PlotText = string | { readonly mm: string; readonly inch: string };

export type PlotAxis = {
  /** what runs along it, in a word or two; the unit is put after it */
  readonly title: string;
  /** `mm` is a length: it is told in inches too. Empty for a plain number */
  readonly unit: string;
  /** values the axis must reach, such as 0 */
  readonly reaches?: readonly number[];
};

export type PlotCurve = {
  /** written beside it; nothing where its axis names it */
  readonly label: string;
  /** its name in the table of values where the label is only a number; the label when left out */
  readonly name?: string;
  /** in the units of the axes, in order; `null` lifts the pen */
  readonly points: readonly (Point | null)[];
};

/** A point picked out: where the bench stands now. */
export type PlotMark = Point & { readonly label: PlotText };

/** A straight line right across, such as a limit. */
export type PlotLine = {
  readonly axis: 'x' | 'y';
  readonly at: number;
  readonly label: PlotText;
};

export type PlotRequest = {
  /** read out by a screen reader: what it is, in a few words */
  readonly title: string;
  /** what a person who cannot see it needs to know */
  readonly description: string;
  readonly x: PlotAxis;
  readonly y: PlotAxis;
  /** up to four, told apart by their lines and their labels, never by colour */
  readonly curves: readonly PlotCurve[];
  readonly marks?: readonly PlotMark[];
  readonly lines?: readonly PlotLine[];
};

export const isPoint = (point: Point | null): point is Point => point !== null;

/** Every value a plot has to show along one axis. */
export function valuesAlong(request: PlotRequest, axis: 'x' | 'y'): number[] {
  const { curves, marks = [], lines = [] } = request;
  const values = [
    ...curves.flatMap(({ points }) => points.filter(isPoint).map((point) => point[axis])),
    ...marks.map((mark) => mark[axis]),
    ...lines.filter((line) => line.axis === axis).map(({ at }) => at),
    ...(request[axis].reaches ?? []),
  ];
  if (values.length === 0 || !values.every(Number.isFinite)) {
    throw new RangeError(`the plot "${request.title}" needs finite values along ${axis}`);
  }
  return values;
}
