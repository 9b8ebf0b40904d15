export { type BuiltBench, buildBench } from './build/build-bench.ts';
export type { RackedKnife } from './build/knife-rack.ts';
export { hasWebGL } from './has-webgl.ts';
export type { CutState } from './motion/cut-show.ts';
export { createStage, type Stage, type StageOptions } from './stage.ts';
export type { Shown } from './tools/instrument.ts';
