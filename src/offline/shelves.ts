import { BUILT } from './built.ts';
import { BUILT_BENCHES, BUILT_SHEET, withoutSlash } from './protocol.ts';

/** Hashed files of every build that is still in use: an open page finds its own even after an update. */
export const FILES = 'files';
export const PAGES = 'pages-';
export const BENCHES = BUILT_BENCHES;
export const SHEET = BUILT_SHEET;

export const pagesOf = (language: string): string => `${PAGES}${language}-${BUILT.version}`;
export const benchesNow = `${BENCHES}${BUILT.version}`;
export const sheetNow = `${SHEET}${BUILT.version}`;

const isNow = (shelf: string): boolean => shelf.endsWith(`-${BUILT.version}`);

/** A page as it is kept: of this build, or of the last one while this one is still being fetched. */
export async function findPage(
  start: typeof PAGES | typeof BENCHES | typeof SHEET,
  path: string,
): Promise<Response | undefined> {
  const shelves = (await caches.keys()).filter((name) => name.startsWith(start));
  for (const name of shelves.sort((a, b) => Number(isNow(b)) - Number(isNow(a)))) {
    const found = await (await caches.open(name)).match(withoutSlash(path));
    if (found !== undefined) return found;
  }
  return undefined;
}

export const findFile = async (path: string): Promise<Response | undefined> =>
  (await caches.open(FILES)).match(path);

/** Takes away the shelves of other builds. */
export async function clearOlder(start: string): Promise<void> {
  const older = (await caches.keys()).filter((name) => name.startsWith(start) && !isNow(name));
  await Promise.all(older.map((name) => caches.delete(name)));
}
