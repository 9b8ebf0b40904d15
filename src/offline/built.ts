import type { BuiltList } from './protocol.ts';

declare const BUILT_LIST: BuiltList;

/** Put in by the build (`build/offline.ts`). */
export const BUILT: BuiltList = BUILT_LIST;

export const LANGUAGES = Object.keys(BUILT.languages);

/** Built files whose names carry a hash of what is in them: they never change. */
export const isHashed = (path: string): boolean => path.startsWith('/_astro/');
