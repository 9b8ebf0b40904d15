export { NEVER_PLANTED, TEST_SPOILERS } from './all-spoilers.ts';
export { LOOK_ALIKES } from './look-alikes.ts';
export { estimateFinding, findPool } from './plan-faults.ts';
export { plantBench } from './plant-bench.ts';
export { makeSoundBench } from './sound-bench.ts';
export type { LookAlike, Margin, Spoiler as TestSpoiler } from './spoiler.ts';
