import { BUILT, isHashed } from '../built.ts';
import { BENCHES, findFile, findPage, PAGES, SHEET } from '../shelves.ts';
import { type Kind, networkFirst } from './kind.ts';

const NAMED = new Set([
  ...Object.values(BUILT.languages).flatMap(({ files }) => files),
  ...BUILT.benches.files,
  ...BUILT.sheet.files,
]);

/** Scripts, styles, faces and lists. A hashed name never changes, so what is kept is the thing itself. */
export const builtFile: Kind = {
  takes: ({ pathname }) => isHashed(pathname) || NAMED.has(pathname),
  answer: async ({ pathname }, request) => {
    if (isHashed(pathname)) return (await findFile(pathname)) ?? fetch(request);
    return networkFirst(
      request,
      async () =>
        (await findPage(PAGES, pathname)) ??
        (await findPage(BENCHES, pathname)) ??
        findPage(SHEET, pathname),
    );
  },
};
