import { BUILT } from '../built.ts';
import { withoutSlash } from '../protocol.ts';
import { findPage, SHEET } from '../shelves.ts';
import { isVisit, type Kind, networkFirst } from './kind.ts';
import { sayNoNetwork } from './no-network.ts';

const PAGES = new Set(BUILT.sheet.pages);

/**
 * The practical sheet: one page for everybody, kept on the devices of trainers (`keepSheet`). Whom it is about
 * stands behind the question mark, and what it shows of them lies in the device's own store.
 */
export const sheetPage: Kind = {
  takes: ({ pathname }, request) => isVisit(request) && PAGES.has(withoutSlash(pathname)),
  answer: ({ pathname }, request) =>
    networkFirst(request, () => findPage(SHEET, pathname)).catch(() => sayNoNetwork(pathname)),
};
