export { drawScale, type ScaleRequest } from './draw-scale.ts';
export { type DialMark, dialMark, type LineMark, ruleMark, vernierMark } from './marks.ts';
