import { languageOfPath, pathIn } from '../words/index.ts';

/** Where a visitor who is not signed in is sent, to come back to this page afterwards. */
export function signInPath({ pathname, search }: Pick<URL, 'pathname' | 'search'>): string {
  return `${pathIn(languageOfPath(pathname), '/sign-in')}?next=${encodeURIComponent(pathname + search)}`;
}
