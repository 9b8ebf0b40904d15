import type { FromWorker, Kept, ToWorker } from '../../offline/index.ts';
import { STATE_CACHE, stateKey } from '../../offline/index.ts';
import { pageLanguage } from '../../words/spoken.ts';

/** What a person chose about keeping the course here; null: nothing yet. */
const CHOICE = 'keep-course';

type Choice = 'yes' | 'no' | null;

export function readChoice(): Choice {
  try {
    const kept = localStorage.getItem(CHOICE);
    return kept === 'yes' || kept === 'no' ? kept : null;
  } catch {
    return null;
  }
}

function writeChoice(choice: 'yes' | 'no'): void {
  try {
    localStorage.setItem(CHOICE, choice);
  } catch {
    // storage refused: the choice lasts for this page
  }
}

/** Service workers are there over https and on the device itself, and not in every private window. */
export const canKeep = (): boolean => 'serviceWorker' in navigator && 'caches' in globalThis;

/** The reader asks for few bytes: nothing is fetched that was not asked for. */
export function savesData(): boolean {
  const { connection } = navigator as { readonly connection?: { readonly saveData?: boolean } };
  return connection?.saveData === true;
}

export async function sendToWorker(message: ToWorker): Promise<void> {
  const { active } = await navigator.serviceWorker.ready;
  active?.postMessage(message);
}

const register = () => navigator.serviceWorker.register('/worker.js', { updateViaCache: 'none' });

const BENCH = /^(\/\w\w)?\/bench\//;

async function askToKeep(): Promise<void> {
  await sendToWorker({ do: 'keep', language: pageLanguage() });
  const { pathname } = location;
  if (BENCH.test(pathname)) await sendToWorker({ do: 'keep-bench', path: pathname });
}

/**
 * Keeps the course on this device from now on, unless somebody chose otherwise or asks for few bytes.
 * Called once a page has nothing better to do. Quiet where it cannot be: the page works without.
 */
export async function keepQuietly(): Promise<void> {
  const choice = readChoice();
  if (!canKeep() || choice === 'no' || (choice === null && savesData())) return;
  try {
    await register();
    navigator.serviceWorker.addEventListener('controllerchange', () => void askToKeep());
    await askToKeep();
  } catch {
    // refused by the browser, or no network
  }
}

/** @throws where the browser refuses */
export async function keepNow(): Promise<void> {
  writeChoice('yes');
  await register();
  await askToKeep();
}

export async function removeKept(): Promise<void> {
  writeChoice('no');
  await sendToWorker({ do: 'remove' });
}

/** What is kept of the language of this page; null: nothing yet. */
export async function readKept(): Promise<Kept | null> {
  if (!canKeep()) return null;
  try {
    const found = await (await caches.open(STATE_CACHE)).match(stateKey(pageLanguage()));
    return found === undefined ? null : ((await found.json()) as Kept);
  } catch {
    return null;
  }
}

/** Tells of each step of keeping, and when all was taken away. */
export function watchKept(tell: (kept: Kept | null) => void): void {
  navigator.serviceWorker.addEventListener('message', ({ data }: { data: FromWorker }) => {
    if ('removed' in data) tell(null);
    else if (data.kept.language === pageLanguage()) tell(data.kept);
  });
  navigator.serviceWorker.startMessages();
}
