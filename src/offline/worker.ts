import { keepBench, keepCourse, keepSheet, removeAll } from './keep.ts';
import { benchPage } from './kinds/bench.ts';
import { builtFile } from './kinds/built-file.ts';
import { coursePage } from './kinds/course.ts';
import { otherPage } from './kinds/no-network.ts';
import { sheetPage } from './kinds/sheet.ts';
import { readAsk, withoutSlash } from './protocol.ts';
import { scope } from './scope.ts';

/** What stands between the pages and the network. A kind of page to come gets a module of its own. */
const KINDS = [builtFile, coursePage, benchPage, sheetPage, otherPage];

// nothing is fetched here: a page asks for what is to be kept once it has nothing better to do
scope.addEventListener('install', (event) => event.waitUntil(scope.skipWaiting()));
scope.addEventListener('activate', (event) => event.waitUntil(scope.clients.claim()));

scope.addEventListener('fetch', (event) => {
  const { request } = event;
  const url = new URL(request.url);
  // what is sent is never ours to keep, and other places are none of our business
  if (request.method !== 'GET' || url.origin !== scope.location.origin) return;
  const kind = KINDS.find((one) => one.takes(url, request));
  if (kind !== undefined) event.respondWith(kind.answer(url, request));
});

scope.addEventListener('message', (event) => {
  // the browser lets pages of this site alone reach its worker; that is not left to it alone
  const data = event.origin === scope.location.origin ? readAsk(event.data) : null;
  if (data === null) return;
  // without a network it is taken up again from the next page
  const quietly = (work: Promise<void>) => event.waitUntil(work.catch(() => undefined));
  if (data.do === 'keep') quietly(keepCourse(data.language));
  else if (data.do === 'keep-bench') quietly(keepBench(withoutSlash(data.path)));
  else if (data.do === 'keep-sheet') quietly(keepSheet());
  else if (data.do === 'remove') quietly(removeAll());
});
