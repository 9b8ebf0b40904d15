import { AROUND_SPOILERS } from './around-spoilers.ts';
import { BLADE_SPOILERS } from './blade-spoilers.ts';
import { GUARDING_SPOILERS } from './guarding-spoilers.ts';
import { MACHINE_SPOILERS } from './machine-spoilers.ts';
import type { Spoiler } from './spoiler.ts';

/** Every way a bench of a test can go wrong, one for each fault it can have. */
export const TEST_SPOILERS: readonly Spoiler[] = [
  ...BLADE_SPOILERS,
  ...GUARDING_SPOILERS,
  ...MACHINE_SPOILERS,
  ...AROUND_SPOILERS,
];

/**
 * Faults no test plants, and why. They stay in the catalogue for the real bench.
 */
export const NEVER_PLANTED: Readonly<Record<string, string>> = {
  'noise-over-figure': 'a figure of the whole day; it is on a measurement sheet, not at the bench',
  'dust-over-figure': 'a figure of the whole day; it is on a measurement sheet, not at the bench',
  'knife-not-rigid': 'found by a type test with 500 N, which nobody does at the bench',
  'too-young': 'nobody can see an age, and no test should ask for a guess at one',
};
