import { isStoreAway } from './problems.ts';

/**
 * Runs work a few at a time: what is asked for first begins first, and what fails makes room like any other.
 * @param atOnce how many may run at the same moment, 1 or more
 */
export function makeTurns(
  atOnce: number,
): <Result>(work: () => Promise<Result>) => Promise<Result> {
  const waiting: (() => void)[] = [];
  let running = 0;
  return async (work) => {
    if (running < atOnce) running += 1;
    // whoever ends hands its place on, so that nobody who comes later can take it
    else await new Promise<void>((begin) => waiting.push(begin));
    try {
      return await work();
    } finally {
      const next = waiting.shift();
      if (next === undefined) running -= 1;
      else next();
    }
  };
}

/** A connection that was found dead before the work began is replaced, once; work that began is never done twice. */
export async function tryAgain<Result>(
  run: (attempt: { isBegun: boolean }) => Promise<Result>,
): Promise<Result> {
  const attempt = { isBegun: false };
  try {
    return await run(attempt);
  } catch (error) {
    if (attempt.isBegun || !isStoreAway(error)) throw error;
    return run({ isBegun: false });
  }
}
