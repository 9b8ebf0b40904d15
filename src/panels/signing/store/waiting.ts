import { openDeviceStore } from './device-store.ts';
import { markedRecords, markRecords, unmarkRecords } from './marks.ts';

/** How many signed records of this device are not in the log. */
export type Waiting = {
  /** on their way */
  readonly unsent: number;
  /** not taken by the site, kept until somebody decides */
  readonly refused: number;
  /** kept here once, and thrown away by the browser since */
  readonly missing: number;
};

const CHANNEL = 'signed-records';
const listeners = new Set<() => void>();
let channel: BroadcastChannel | null = null;

function openChannel(): BroadcastChannel | null {
  if (channel !== null || globalThis.BroadcastChannel === undefined) return channel;
  channel = new BroadcastChannel(CHANNEL);
  channel.addEventListener('message', () => {
    for (const listen of listeners) listen();
  });
  return channel;
}

/** Tells this page and every other one of the site that what waits has changed. */
export function tellChanged(): void {
  for (const listen of listeners) listen();
  openChannel()?.postMessage('changed');
}

/** Counts what waits, and marks what is there without a mark. @throws where the store cannot be opened */
export async function countWaiting(): Promise<Waiting> {
  const db = await openDeviceStore();
  const marked = markedRecords();
  const read = db.transaction(['outbox', 'refused']);
  const [unsent, refused] = await Promise.all([
    read.objectStore('outbox').getAllKeys(),
    read.objectStore('refused').getAllKeys(),
  ]);
  const here = new Set([...unsent, ...refused]);
  markRecords([...here].filter((signoff) => !marked.includes(signoff)));
  return {
    unsent: unsent.length,
    refused: refused.length,
    missing: marked.filter((signoff) => !here.has(signoff)).length,
  };
}

/** Somebody has read that records are missing: it is not told again. */
export async function forgetMissing(): Promise<void> {
  const db = await openDeviceStore();
  const here = new Set([...(await db.getAllKeys('outbox')), ...(await db.getAllKeys('refused'))]);
  unmarkRecords(markedRecords().filter((signoff) => !here.has(signoff)));
  tellChanged();
}

/**
 * Calls back with the counts now and after every change, in whichever tab it happens.
 * @returns how to stop
 */
export function watchUnsent(listen: (waiting: Waiting) => void): () => void {
  const count = (): void => {
    countWaiting().then(listen, () =>
      listen({ unsent: 0, refused: 0, missing: markedRecords().length }),
    );
  };
  listeners.add(count);
  openChannel();
  count();
  return () => {
    listeners.delete(count);
  };
}
