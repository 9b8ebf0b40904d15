import { BUILT } from '../built.ts';
import { withoutSlash } from '../protocol.ts';
import { BENCHES, findPage } from '../shelves.ts';
import { isVisit, type Kind, networkFirst } from './kind.ts';
import { sayNoNetwork } from './no-network.ts';

const PAGES = new Set(BUILT.benches.pages);

/** Practice benches: kept once they were opened (`keepBench`), the same shell for everybody. */
export const benchPage: Kind = {
  takes: ({ pathname }, request) => isVisit(request) && PAGES.has(withoutSlash(pathname)),
  answer: ({ pathname }, request) =>
    networkFirst(request, () => findPage(BENCHES, pathname)).catch(() => sayNoNetwork(pathname)),
};
