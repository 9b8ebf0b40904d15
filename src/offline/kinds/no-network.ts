import { languageOfPath, pathIn } from '../../words/index.ts';
import { findPage, PAGES } from '../shelves.ts';
import { isVisit, type Kind } from './kind.ts';

/** The page that says what can be opened, in the language of the address that was asked for. */
export async function sayNoNetwork(path: string): Promise<Response> {
  const own = pathIn(languageOfPath(path), '/offline');
  const page = (await findPage(PAGES, own)) ?? (await findPage(PAGES, '/offline'));
  if (page === undefined) return Response.error();
  // it stands for a page that did not come, and is not that page
  return new Response(page.body, { status: 503, headers: page.headers });
}

/** Any other page: whatever belongs to a person is only ever shown as the network brings it, and never kept. */
export const otherPage: Kind = {
  takes: (_url, request) => isVisit(request),
  answer: ({ pathname }, request) => fetch(request).catch(() => sayNoNetwork(pathname)),
};
