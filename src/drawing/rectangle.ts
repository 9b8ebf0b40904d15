import type { Point } from '../geometry/index.ts';

/** The four corners of an upright rectangle, model or sheet, in order. */
export const rectangle = (left: number, right: number, bottom: number, top: number): Point[] => [
  { x: left, y: bottom },
  { x: right, y: bottom },
  { x: right, y: top },
  { x: left, y: top },
];
