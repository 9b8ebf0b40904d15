import { BUILT, LANGUAGES } from '../built.ts';
import { withoutSlash } from '../protocol.ts';
import { findPage, PAGES } from '../shelves.ts';
import { isVisit, type Kind, networkFirst } from './kind.ts';

const KNOWN = new Set(
  LANGUAGES.flatMap((language) => [
    ...(BUILT.languages[language]?.pages ?? []),
    ...(BUILT.asked[language] ?? []),
  ]),
);

/** Pages of the course: the same for everybody. What was asked after the path makes no other page of it. */
export const coursePage: Kind = {
  takes: ({ pathname }, request) => isVisit(request) && KNOWN.has(withoutSlash(pathname)),
  answer: ({ pathname }, request) => networkFirst(request, () => findPage(PAGES, pathname)),
};
