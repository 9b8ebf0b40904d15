import { defineMiddleware } from 'astro:middleware';
import { METHODS } from 'virtual:methods';
import type { APIContext } from 'astro';
import {
  askForRoute,
  browserAddress,
  costOf,
  ownSessionOf,
  replyJson,
  takeRequest,
  viewerOf,
} from './accounts/index.ts';
import { logError, logSecurity, noteRoute } from './logging/index.ts';
import { asSite, isStoreAway } from './store/index.ts';
import { plainPath } from './words/index.ts';

/** How soon a site whose database is away may be asked again, seconds. */
const RETRY_AFTER_S = '5';

/** To somebody who is signed in: not for their role, or not theirs, which looks like what never was. */
const REFUSED = new Set([403, 404]);

/** A form elsewhere can send text that looks like JSON, but cannot give it this name without being asked first. */
const isJsonType = ({ headers }: Request): boolean =>
  /^application\/json\s*(;|$)/i.test(headers.get('content-type') ?? '');

/**
 * Gives every page made on demand the person who asks for it. What throws is logged without its message, an
 * interface answers in its one shape, and nothing of the error leaves the server.
 */
export const onRequest = defineMiddleware(async (context, next) => {
  if (context.isPrerendered) {
    context.locals.viewer = null;
    return next();
  }
  noteRoute(context.routePattern);
  const isInterface = context.url.pathname.startsWith('/api/');
  // no id holds one, and PostgreSQL takes a text with one for a fault of whoever asks
  if (Object.values(context.params).some((part) => part?.includes('\0'))) {
    return replyNotThere(isInterface);
  }
  const taken = METHODS[plainPath(context.routePattern)];
  if (taken !== undefined && !taken.includes(context.request.method)) {
    return replyNotTaken(context.request.method, taken, isInterface);
  }
  if (isInterface && context.request.method === 'POST' && !isJsonType(context.request)) {
    const message = 'This address takes JSON, with the content type application/json.';
    return replyJson({ error: { path: '', message } }, 415);
  }
  try {
    const session = await asSite(() => ownSessionOf(context.request));
    const wait = takeFor(context, session?.viewer.person ?? null);
    // without a body, the server puts its own sentence there, in the reader's language
    if (wait > 0) return new Response(null, { status: 429, headers: { 'retry-after': `${wait}` } });
    context.locals.viewer = await viewerOf(context.request);
    askForRoute(context.routePattern, session?.viewer ?? null);
    const reply = await next();
    if (session !== null && REFUSED.has(reply.status)) logSecurity('not-permitted');
    return reply;
  } catch (error) {
    logError(error);
    if (isStoreAway(error)) return replyAway(isInterface);
    // without a body, the server puts its own sentence there
    if (!isInterface) return new Response(null, { status: 500 });
    const message = 'Something went wrong on our side; nothing you sent was recorded.';
    return replyJson({ error: { path: '', message } }, 500);
  }
});

function replyNotThere(isInterface: boolean): Response {
  if (!isInterface) return new Response(null, { status: 404 });
  return replyJson({ error: { path: '', message: 'There is nothing at this address.' } }, 404);
}

/** Counts a request against whoever sends it: the seconds they have to wait, 0 for none. */
function takeFor({ request, routePattern, clientAddress }: APIContext, person: string | null) {
  const cost = costOf(plainPath(routePattern), request.method);
  return takeRequest({ person, address: browserAddress(request, clientAddress) }, cost);
}

/** The address is there, and says what it takes instead; a page's sentence is put there by the server. */
function replyNotTaken(method: string, taken: readonly string[], isInterface: boolean): Response {
  const message = `This address does not take ${method}.`;
  const reply = isInterface
    ? replyJson({ error: { path: '', message } }, 405)
    : new Response(null, { status: 405 });
  reply.headers.set('allow', taken.join(', '));
  return reply;
}

/** The database cannot be reached or is late: nothing was confirmed, and the same may be sent again. */
function replyAway(isInterface: boolean): Response {
  const message =
    'The site cannot answer just now; send the same again in a moment, it is entered once.';
  const reply = isInterface
    ? replyJson({ error: { path: '', message } }, 503)
    : new Response(null, { status: 503 });
  reply.headers.set('retry-after', RETRY_AFTER_S);
  return reply;
}
