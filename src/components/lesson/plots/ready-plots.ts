import { type Bench, findFigure, TRUNK, throwStrip } from '../../../bench/index.ts';
import {
  drawChip,
  drawCut,
  drawStrip,
  drawTip,
  type PlotLine,
  type PlotRequest,
} from '../../../drawing/index.ts';
import type { Speaker } from '../../../words/say.ts';
import { cuttingOf } from '../../workings/cutting.ts';
import { plotNoiseDay } from '../../workings/day.ts';
import { stoppingOf } from '../../workings/stopping.ts';
import { throwingOf } from '../../workings/thrown.ts';
import { drawingWords } from '../drawing-words.ts';

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
const raising = (bench: Bench, at: number, say: Speaker) =>
  cuttingOf(bench, CHIP_FORCE, say)?.raising[at];
const feeding = (bench: Bench, at: number, say: Speaker) =>
  cuttingOf(bench, CHIP_FORCE, say)?.feeding[at];

/** Whether the drawing of a chip or a cut has something to draw. @throws as `findFigure` */
const needCut = (bench: Bench): Bench => {
  findFigure(bench, 'cut.chipMean');
  return bench;
};

/** Makes one of the plots. @param lines published limits drawn across */
type Make = (bench: Bench, named: Named, lines: readonly PlotLine[], say: Speaker) => Shown;

/** A drawing by its name, its printed words in the language of the page. */
const worded = (named: Named, say: Speaker) => ({ ...named, wording: drawingWords(say) });

/** Plots that are ready to be named, in the order of the guide for writers. */
const READY = {
  'entry-angle': (bench, named, lines, say) => asPlot(raising(bench, 0, say), named, lines),
  'teeth-in-cut': (bench, named, lines, say) => asPlot(raising(bench, 1, say), named, lines),
  'chip-thickness': (bench, named, lines, say) => asPlot(raising(bench, 2, say), named, lines),
  'push-back': (bench, named, lines, say) => asPlot(raising(bench, 3, say), named, lines),
  power: (bench, named, lines, say) => asPlot(feeding(bench, 0, say), named, lines),
  'chip-by-feed': (bench, named, lines, say) => asPlot(feeding(bench, 1, say), named, lines),
  chip: (bench, named, _lines, say) => drawn(drawChip(needCut(bench), worded(named, say))),
  cut: (bench, named, _lines, say) => drawn(drawCut(needCut(bench), worded(named, say))),
  strip: (bench, named, _lines, say) =>
    drawn(drawStrip(bench, throwStrip(bench), TRUNK, worded(named, say))),
  tip: (bench, named, _lines, say) => drawn(drawTip(bench, worded(named, say))),
  'run-down': (bench, named, lines, say) =>
    asPlot(stoppingOf(bench, null, say).plot, named, lines, 'y'),
  throw: (bench, named, lines, say) =>
    asPlot(throwingOf(bench, { ...bench, knife: null }, CLOSING, say).plot, named, lines),
  'noise-day': (bench, named, lines, say) => asPlot(plotNoiseDay(bench, say), named, lines),
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
  say: Speaker,
): Shown => (READY[id] as Make)(bench, named, lines, say);
