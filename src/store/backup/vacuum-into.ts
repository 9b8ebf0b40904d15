import { DatabaseSync } from 'node:sqlite';
import { Worker, workerData } from 'node:worker_threads';

/** The one argument a thread of this file is given. */
type Copying = { readonly vacuum: { readonly from: string; readonly to: string } };

/** Runs in a thread of its own: the library stands still until the copy is done, a minute for a large store. */
function vacuum({ from, to }: Copying['vacuum']): void {
  // not read-only: the last connection to a store that is not in use would then leave two files beside it
  const database = new DatabaseSync(from, { timeout: 5_000 });
  try {
    database.prepare('vacuum into ?').run(to);
  } finally {
    database.close();
  }
}

const given = workerData as Copying | null;
if (given?.vacuum !== undefined) vacuum(given.vacuum);

/**
 * Copies a store that is in use into a new file, as it was at one moment, with this thread free meanwhile. It is
 * read in one transaction of a connection of its own, so whoever writes goes on and nothing is copied twice. The
 * rows are written anew: what was erased is not carried along in pages no longer used, as it would be in a copy of
 * the file page by page.
 *
 * @throws the database's own error
 */
export function vacuumInto(from: string, to: string): Promise<void> {
  const worker = new Worker(new URL(import.meta.url), { workerData: { vacuum: { from, to } } });
  return new Promise((resolve, reject) => {
    worker.once('error', reject);
    worker.once('exit', () => resolve());
  });
}
