export { NEVER_PLANTED, TEST_SPOILERS } from './all-spoilers.ts';
export { chanceOf, expectedFinding, overPopulation, POPULATION } from './expected-find.ts';
export { estimateFinding } from './find-pool.ts';
export { LOOK_ALIKES } from './look-alikes.ts';
export { planFaults } from './plan-faults.ts';
export { plantBench } from './plant-bench.ts';
export { makeSoundBench } from './sound-bench.ts';
export type { LookAlike, Margin, Spoiler as TestSpoiler } from './spoiler.ts';
