export { type DrawingRequest, drawBench } from './draw-bench.ts';
export { type MarkTarget, selectTarget } from './mark-target.ts';
export { type DimensionId, isDimensionId } from './measures.ts';
export { drawPlot } from './plot.ts';
export { chipEnlarged, drawChip, sayFine } from './plot-chip.ts';
export { drawCut } from './plot-cut.ts';
export type {
  PlotAxis,
  PlotCurve,
  PlotLine,
  PlotMark,
  PlotRequest,
  PlotText,
} from './plot-request.ts';
export { drawStrip } from './plot-strip.ts';
export { type PlotColumn, type PlotTable, tabulatePlot } from './plot-table.ts';
export { drawTip } from './plot-tip.ts';
export type { Clip } from './sheet.ts';
export {
  type Crop,
  ENGLISH,
  PART_LABELS,
  type PartLabel,
  type View,
  type Wording,
} from './view.ts';
