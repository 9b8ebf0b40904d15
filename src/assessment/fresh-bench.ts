import type { Bench } from '../bench/index.ts';
import { type Random, seedRandom } from './random.ts';
import { SPOILERS, type Spoiler } from './spoilers.ts';

/** Small honest differences between benches in good order, so that no two look alike. */
function vary(bench: Bench, random: Random): Bench {
  const { knife, guard, fence, insert } = bench;
  const shift = random.step(-3, 3, 1);
  const gap = random.step(2, 4, 0.5);
  return {
    ...bench,
    knife: knife === null ? null : { ...knife, along: knife.along + random.step(-1, 1.5, 0.5) },
    guard:
      guard === null ? null : { ...guard, front: guard.front + shift, rear: guard.rear + shift },
    fence: {
      ...fence,
      face: fence.face + random.step(-20, 40, 5),
      end: fence.end - random.step(0, 25, 5),
    },
    insert: { ...insert, gaps: [gap, Math.max(2, gap + random.step(-0.5, 0.5, 0.5))] },
    job: { ...bench.job, widthOfCut: bench.job.widthOfCut },
  };
}

/** The spoilers a seed picks: `count` of them, no two on the same thing. */
function chooseSpoilers(random: Random, count: number): Spoiler[] {
  const chosen: Spoiler[] = [];
  for (const spoiler of random.sample(SPOILERS, SPOILERS.length)) {
    if (chosen.length === count) break;
    if (chosen.every((one) => one.group !== spoiler.group)) chosen.push(spoiler);
  }
  return chosen;
}

/**
 * A bench nobody has seen: a sound one varied a little, then spoiled in a few ways.
 * Same seed, same bench, on every machine. What is wrong with it is for the engine to find.
 * @param spoil how many spoilers, both ends included; null leaves the bench as it is
 */
export function makeFreshBench(
  sound: Bench,
  spoil: { readonly least: number; readonly most: number } | null,
  seed: string,
): Bench {
  if (spoil === null) return sound;
  const random = seedRandom(seed);
  const varied = vary(sound, random);
  const spoilers = chooseSpoilers(random, random.whole(spoil.least, spoil.most));
  return spoilers.reduce((bench, spoiler) => spoiler.spoil(bench, random), varied);
}
