import { openDeviceStore, STRICT } from '../store/device-store.ts';

const LOCK = 'signed-to-saw/sending';
/** How long a tab may send without a sign of life before another one takes over, ms. */
const LEASE = 45_000;
/** Longest wait for another tab that is sending, ms. */
const PATIENCE = 30_000;
const POLL = 250;

export type Turn<Result> =
  | { readonly state: 'had'; readonly result: Result }
  /** another tab is sending */
  | { readonly state: 'elsewhere' };

/** The browser's own locks: one holder among all tabs, let go by itself when a tab dies. */
async function byLock<Result>(
  locks: LockManager,
  work: () => Promise<Result>,
  busy: 'wait' | 'leave',
): Promise<Turn<Result>> {
  const options: LockOptions =
    busy === 'leave' ? { ifAvailable: true } : { signal: AbortSignal.timeout(PATIENCE) };
  let isMine = false;
  try {
    return await locks.request(LOCK, options, async (lock): Promise<Turn<Result>> => {
      if (lock === null) return { state: 'elsewhere' };
      isMine = true;
      return { state: 'had', result: await work() };
    });
  } catch (error) {
    if (!isMine && error instanceof DOMException) return { state: 'elsewhere' };
    throw error;
  }
}

/** Takes the lease, or renews it for its holder, in one transaction. */
async function takeLease(owner: string): Promise<'mine' | 'theirs'> {
  const change = (await openDeviceStore()).transaction('notes', 'readwrite', STRICT);
  const note = await change.store.get('sending');
  const now = Date.now();
  // a lease that ends later than any could have been given was made by a clock that was ahead
  const holds =
    note?.name === 'sending' &&
    note.owner !== owner &&
    note.until > now &&
    note.until <= now + LEASE;
  if (!holds) await change.store.put({ name: 'sending', owner, until: now + LEASE });
  await change.done;
  return holds ? 'theirs' : 'mine';
}

async function giveBack(owner: string): Promise<void> {
  const change = (await openDeviceStore()).transaction('notes', 'readwrite', STRICT);
  const note = await change.store.get('sending');
  if (note?.name === 'sending' && note.owner === owner) await change.store.delete('sending');
  await change.done;
}

async function byLease<Result>(
  work: () => Promise<Result>,
  busy: 'wait' | 'leave',
): Promise<Turn<Result>> {
  const owner = crypto.randomUUID();
  const giveUp = performance.now() + PATIENCE;
  while ((await takeLease(owner)) === 'theirs') {
    if (busy === 'leave' || performance.now() > giveUp) return { state: 'elsewhere' };
    await new Promise((wake) => setTimeout(wake, POLL));
  }
  const renewing = setInterval(() => void takeLease(owner).catch(() => undefined), LEASE / 3);
  try {
    return { state: 'had', result: await work() };
  } finally {
    clearInterval(renewing);
    await giveBack(owner).catch(() => undefined);
  }
}

/**
 * Runs `work` while no other tab of this browser does. The site answers a repeat with the same reply, so
 * that two at once would do no harm either: this saves the second sending.
 */
export function takeTurn<Result>(
  work: () => Promise<Result>,
  busy: 'wait' | 'leave',
): Promise<Turn<Result>> {
  const locks = globalThis.navigator.locks as LockManager | undefined;
  return locks === undefined ? byLease(work, busy) : byLock(locks, work, busy);
}
