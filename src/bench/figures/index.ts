export { digitsFor, type Figure, type FigureUnit, isPlainUnit } from './figure.ts';
export { findFigure } from './find-figure.ts';
export { type FigureStep, howFigure, TOLD_FIGURES } from './how-figure.ts';
export { setFields } from './set-fields.ts';
export { isWorking, WORKINGS, type WorkingId } from './workings.ts';
