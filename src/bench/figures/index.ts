export { digitsFor, type Figure, type FigureUnit, isPlainUnit } from './figure.ts';
export { findFigure } from './find-figure.ts';
export { isWorking, WORKINGS, type WorkingId } from './workings.ts';
