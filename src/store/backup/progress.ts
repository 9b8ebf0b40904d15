import { statSync } from 'node:fs';

/** How far a backup or a restore is: a step, and how much of it is done; null where that cannot be seen. */
export type Progress = {
  readonly step: 'copy' | 'digests' | 'load' | 'audit';
  /** bytes; at an audit, events */
  readonly done: number | null;
  /** what `done` will be at the end; null where nobody knows yet */
  readonly whole: number | null;
};
export type Tell = (progress: Progress) => void;

const LOOK_MS = 500;

function sizeOf(path: string): number | null {
  return statSync(path, { throwIfNoEntry: false })?.size ?? null;
}

/** Tells twice a second, while `work` goes on, how far the file it writes has grown. */
export async function watchFile<Result>(
  work: Promise<Result>,
  path: string,
  tell: (bytes: number | null) => void,
): Promise<Result> {
  const looking = setInterval(() => tell(sizeOf(path)), LOOK_MS);
  try {
    return await work;
  } finally {
    clearInterval(looking);
  }
}

/** Passes entries on, and tells how many have passed. */
export async function* countPassed<Entry>(
  chunks: AsyncIterable<readonly Entry[]>,
  tell: (passed: number) => void,
): AsyncIterable<readonly Entry[]> {
  let passed = 0;
  for await (const some of chunks) {
    yield some;
    passed += some.length;
    tell(passed);
  }
}
