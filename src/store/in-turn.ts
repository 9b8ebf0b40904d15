import { isStoreAway } from './problems.ts';

/** One after another: whoever waits for the database's one writer holds no connection of this process meanwhile. */
export function makeTurns(): <Result>(work: () => Promise<Result>) => Promise<Result> {
  let last: Promise<unknown> = Promise.resolve();
  return (work) => {
    const turn = last.then(work);
    last = turn.catch(() => undefined);
    return turn;
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
