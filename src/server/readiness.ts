import { statfs } from 'node:fs/promises';
import { join } from 'node:path';
import type { Site } from '../accounts/index.ts';
import { log } from '../logging/index.ts';
import { hasCurrentTables, hasHead, isWritable, openSiteKey } from '../store/index.ts';

const CHECKS = ['running', 'store', 'log', 'tables', 'key', 'disk'] as const;
type Check = (typeof CHECKS)[number];

/** Whether this site can take work now. It tells nothing of anybody, no version and no size. */
export type Readiness = {
  readonly ready: boolean;
  readonly checks: Readonly<Record<Check, 'ok' | 'failed'>>;
};

/** An answer serves everybody who asks within this time, so that asking cannot wear the store out, ms. */
const FRESH_MS = 1_000;
/** A check that takes longer has failed, ms. */
const PATIENCE_MS = 3_000;

async function within(work: Promise<boolean>): Promise<'ok' | 'failed'> {
  let late: NodeJS.Timeout | undefined;
  const patience = new Promise<boolean>((resolve) => {
    late = setTimeout(() => resolve(false), PATIENCE_MS);
  });
  const done = await Promise.race([work, patience]).catch(() => false);
  clearTimeout(late);
  return done ? 'ok' : 'failed';
}

async function hasRoom(folder: string, floor: number): Promise<boolean> {
  const { bavail, bsize } = await statfs(folder);
  return bavail * bsize >= floor;
}

/** The key file as it lies there now: one that was taken away is missed at the next start. */
async function hasKey({ siteKey }: Site, dataDir: string): Promise<boolean> {
  const file = join(dataDir, 'site-key.json');
  return (await openSiteKey(file, file)).keyId === siteKey.keyId;
}

/** Makes the question whether a site is ready; whoever asks says whether it is stopping. */
export function makeReadiness(
  site: Site,
  place: { readonly dataDir: string; readonly diskFloor: number },
): (isStopping: boolean) => Promise<Readiness> {
  let asked: {
    readonly at: number;
    readonly checks: Promise<Omit<Readiness['checks'], 'running'>>;
  } | null = null;
  let wasReady = true;

  async function askStore(): Promise<Omit<Readiness['checks'], 'running'>> {
    const { store, siteKey } = site;
    const [writable, head, tables, key, disk] = await Promise.all([
      within(isWritable(store)),
      within(hasHead(store, siteKey.publicKey)),
      within(hasCurrentTables(store)),
      within(hasKey(site, place.dataDir)),
      within(hasRoom(place.dataDir, place.diskFloor)),
    ]);
    return { store: writable, log: head, tables, key, disk };
  }

  return async (isStopping) => {
    const now = performance.now();
    if (asked === null || now - asked.at > FRESH_MS) asked = { at: now, checks: askStore() };
    const running = isStopping ? ('failed' as const) : ('ok' as const);
    const checks = { running, ...(await asked.checks) };
    const ready = CHECKS.every((check) => checks[check] === 'ok');
    // told once when it changes, not each time somebody asks
    if (wasReady && !ready) log('warn', 'not-ready', { checks });
    wasReady = ready;
    return { ready, checks };
  };
}
