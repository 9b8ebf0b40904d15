import { BUILT, isHashed } from './built.ts';
import { fetchPlain } from './fetch-plain.ts';
import { type FromWorker, type Kept, STATE_CACHE, stateKey } from './protocol.ts';
import { scope } from './scope.ts';
import {
  BENCHES,
  benchesNow,
  clearOlder,
  FILES,
  PAGES,
  pagesOf,
  SHEET,
  sheetNow,
} from './shelves.ts';

const SAY_EACH = 8;
const underWay = new Map<string, Promise<void>>();

async function tell(kept: Kept): Promise<void> {
  const state = await caches.open(STATE_CACHE);
  await state.put(stateKey(kept.language), Response.json(kept));
  await tellPages({ kept });
}

async function tellPages(message: FromWorker): Promise<void> {
  const clients = await scope.clients.matchAll({ includeUncontrolled: true });
  for (const client of clients) client.postMessage(message);
}

/** Fetches a file unless it is there; a hashed one that is there is the right one. */
async function takeIn(shelf: string, path: string): Promise<void> {
  const cache = await caches.open(shelf);
  if ((await cache.match(path)) !== undefined) return;
  await cache.put(path, await fetchPlain(path, isHashed(path) ? 'any' : 'fresh'));
}

/** A page the server makes, with the hashed files it names. Not there, it is left out: the rest is kept. */
async function takeAsked(shelf: string, path: string): Promise<void> {
  try {
    const cache = await caches.open(shelf);
    const reply = await fetchPlain(path, 'fresh');
    const text = await reply.clone().text();
    await cache.put(path, reply);
    const named = [...text.matchAll(/\/_astro\/[\w@~.-]+\.(?:js|css|woff2)/g)].map(
      ([file]) => file,
    );
    for (const file of new Set(named)) await takeIn(FILES, file);
  } catch {
    // the way to it leads to the page that says what can be opened
  }
}

/** Keeps the course of one language, file by file, so that a phone in a workshop hardly feels it. */
export function keepCourse(language: string): Promise<void> {
  const running = underWay.get(language);
  if (running !== undefined) return running;
  const work = keepAll(language).finally(() => underWay.delete(language));
  underWay.set(language, work);
  return work;
}

async function keepAll(language: string): Promise<void> {
  const course = BUILT.languages[language];
  if (course === undefined) return;
  const { pages, files, bytes } = course;
  const shelf = pagesOf(language);
  const wanted = [
    ...files.map((path) => [isHashed(path) ? FILES : shelf, path] as const),
    ...pages.map((path) => [shelf, path] as const),
  ];
  const all = wanted.length;
  const kept = { language, version: BUILT.version, all, bytes };
  const before = await stateOf(language);
  if (before?.version === BUILT.version && before.at !== null) {
    await tell(before);
    return;
  }
  for (const [done, [on, path]] of wanted.entries()) {
    await takeIn(on, path);
    if (done % SAY_EACH === 0) await tell({ ...kept, done, at: null });
  }
  for (const path of BUILT.asked[language] ?? []) await takeAsked(shelf, path);
  await clearOlder(`${PAGES}${language}-`);
  await bringBenches();
  await bringSheet();
  await clearFiles();
  await tell({ ...kept, done: all, at: new Date().toISOString() });
}

export async function stateOf(language: string): Promise<Kept | null> {
  const found = await (await caches.open(STATE_CACHE)).match(stateKey(language));
  return found === undefined ? null : ((await found.json()) as Kept);
}

/** A practice bench that was opened, with all its parts. */
export async function keepBench(path: string): Promise<void> {
  if (!BUILT.benches.pages.includes(path)) return;
  for (const file of BUILT.benches.files) {
    await takeIn(isHashed(file) ? FILES : benchesNow, file);
  }
  await takeIn(benchesNow, path);
}

/** After an update, the benches that were kept are kept as they are now. */
async function bringBenches(): Promise<void> {
  for (const name of await caches.keys()) {
    if (!name.startsWith(BENCHES) || name === benchesNow) continue;
    for (const { url } of await (await caches.open(name)).keys()) {
      await keepBench(new URL(url).pathname);
    }
  }
  await clearOlder(BENCHES);
}

/** The practical sheet with all its parts, for a device that works for a trainer. */
export async function keepSheet(): Promise<void> {
  for (const file of BUILT.sheet.files) await takeIn(isHashed(file) ? FILES : sheetNow, file);
  for (const page of BUILT.sheet.pages) await takeIn(sheetNow, page);
  await clearOlder(SHEET);
}

/** After an update, a sheet that was kept is kept as it is now. */
async function bringSheet(): Promise<void> {
  const isKept = (await caches.keys()).some((name) => name.startsWith(SHEET));
  if (isKept) await keepSheet();
}

const LISTS = '/kept-state/files';

/** Hashed files go once neither this build nor the one before has them: a page left open may need its own. */
async function clearFiles(): Promise<void> {
  const now = [
    ...Object.values(BUILT.languages).flatMap(({ files }) => files),
    ...BUILT.benches.files,
    ...BUILT.sheet.files,
  ];
  const state = await caches.open(STATE_CACHE);
  const found = await state.match(LISTS);
  const last = found === undefined ? null : ((await found.json()) as FileLists);
  const before = last === null ? [] : last.version === BUILT.version ? last.before : last.now;
  await state.put(LISTS, Response.json({ version: BUILT.version, now, before }));
  if (last === null || last.version === BUILT.version) return;
  const files = await caches.open(FILES);
  const wanted = new Set([...now, ...before]);
  for (const request of await files.keys()) {
    if (!wanted.has(new URL(request.url).pathname)) await files.delete(request);
  }
}

type FileLists = {
  readonly version: string;
  readonly now: readonly string[];
  readonly before: readonly string[];
};

/** Takes away everything that was ever kept. */
export async function removeAll(): Promise<void> {
  await Promise.all((await caches.keys()).map((name) => caches.delete(name)));
  await tellPages({ removed: true });
}
