export * from './catalogue.ts';
export { nearestHand } from './hand.ts';
export { type KnifeGaps, knifeArcShare, knifeGaps } from './knife-gap.ts';
export { bladeFrame, type Frame, measureBench } from './measure-bench.ts';
