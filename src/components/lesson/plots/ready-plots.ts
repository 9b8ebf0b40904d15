import { type Bench, findFigure, TRUNK, throwStrip } from '../../../bench/index.ts';
import {
  drawChip,
  drawCut,
  drawStrip,
  drawTip,
  type PlotLine,
  type PlotRequest,
} from '../../../drawing/index.ts';
import { cuttingOf } from '../../workings/cutting.ts';
import { plotNoiseDay } from '../../workings/day.ts';
import { stoppingOf } from '../../workings/stopping.ts';
import { throwingOf } from '../../workings/thrown.ts';

/** A plot with its values beside it, or a drawing computed for one purpose. */
export type Shown =
  | { readonly kind: 'plot'; readonly request: PlotRequest; readonly by: 'x' | 'y' }
  | { readonly kind: 'drawn'; readonly svg: string };

export type Named = { readonly title: string; readonly description: string };

/** N/mm2 of chip, mm the kerf would close by: assumed as on /workings, and labelled there. */
const CHIP_FORCE = 30;
const CLOSING = 2;

/** @throws Error in one sentence when the bench gives the plot nothing to show */
function asPlot(
  request: PlotRequest | null | undefined,
  { title, description }: Named,
  lines: readonly PlotLine[],
  by: 'x' | 'y' = 'x',
): Shown {
  if (!request) throw new Error(`The plot "${title}" has nothing to show on this bench.`);
  const all = [...(request.lines ?? []), ...lines];
  return { kind: 'plot', request: { ...request, title, description, lines: all }, by };
}

const drawn = (svg: string): Shown => ({ kind: 'drawn', svg });
const raising = (bench: Bench, at: number) => cuttingOf(bench, CHIP_FORCE)?.raising[at];
const feeding = (bench: Bench, at: number) => cuttingOf(bench, CHIP_FORCE)?.feeding[at];

/** Whether the drawing of a chip or a cut has something to draw. @throws as `findFigure` */
const needCut = (bench: Bench): Bench => {
  findFigure(bench, 'cut.chipMean');
  return bench;
};

/** Makes one of the plots. @param lines published limits drawn across */
type Make = (bench: Bench, named: Named, lines: readonly PlotLine[]) => Shown;

/** Plots that are ready to be named, in the order of the guide for writers. */
const READY = {
  'entry-angle': (bench, named, lines) => asPlot(raising(bench, 0), named, lines),
  'teeth-in-cut': (bench, named, lines) => asPlot(raising(bench, 1), named, lines),
  'chip-thickness': (bench, named, lines) => asPlot(raising(bench, 2), named, lines),
  'push-back': (bench, named, lines) => asPlot(raising(bench, 3), named, lines),
  power: (bench, named, lines) => asPlot(feeding(bench, 0), named, lines),
  'chip-by-feed': (bench, named, lines) => asPlot(feeding(bench, 1), named, lines),
  chip: (bench, named) => drawn(drawChip(needCut(bench), named)),
  cut: (bench, named) => drawn(drawCut(needCut(bench), named)),
  strip: (bench, named) => drawn(drawStrip(bench, throwStrip(bench), TRUNK, named)),
  tip: (bench, named) => drawn(drawTip(bench, named)),
  'run-down': (bench, named, lines) => asPlot(stoppingOf(bench, null).plot, named, lines, 'y'),
  throw: (bench, named, lines) =>
    asPlot(throwingOf(bench, { ...bench, knife: null }, CLOSING).plot, named, lines),
  'noise-day': (bench, named, lines) => asPlot(plotNoiseDay(bench), named, lines),
} as const satisfies Record<string, Make>;

export type ReadyPlotId = keyof typeof READY;
export const READY_PLOTS = Object.keys(READY) as readonly ReadyPlotId[];
export const isReadyPlot = (text: string): text is ReadyPlotId => Object.hasOwn(READY, text);

/** The measures of published limits a ready plot can draw across, and the axis they stand on. */
export const LIMITS_OF: Partial<Record<ReadyPlotId, { axis: 'x' | 'y'; measures: string[] }>> = {
  'entry-angle': { axis: 'y', measures: ['blade.entryAngle'] },
  'teeth-in-cut': { axis: 'y', measures: ['blade.teethInCut'] },
  'run-down': { axis: 'x', measures: ['arbor.runDown'] },
  'noise-day': { axis: 'y', measures: ['noise.exposure', 'noise.atEar'] },
};

/** @throws Error in one sentence when the bench gives the plot nothing to show */
export const makeReadyPlot = (
  id: ReadyPlotId,
  bench: Bench,
  named: Named,
  lines: readonly PlotLine[],
): Shown => (READY[id] as Make)(bench, named, lines);
