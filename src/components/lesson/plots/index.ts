export { changeField } from './change-field.ts';
export { plotChange } from './change-plot.ts';
export { nameOne } from './figure-names.ts';
export { type AskedPlot, makePlot } from './make-plot.ts';
export { isReadyPlot, READY_PLOTS } from './ready-plots.ts';
