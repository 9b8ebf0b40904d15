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
/** The database cannot be reached or is late: nothing was confirmed, and the same may be sent again. */
const AWAY =
  'The site cannot answer just now; send the same again in a moment, it is entered once.';

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
    return refuse(404, 'There is nothing at this address.', isInterface);
  }
  const { method } = context.request;
  const taken = METHODS[plainPath(context.routePattern)];
  if (taken !== undefined && !taken.includes(method)) {
    // the address is there, and says what it takes instead
    const allow = taken.join(', ');
    return refuse(405, `This address does not take ${method}.`, isInterface, { allow });
  }
  if (isInterface && method === 'POST' && !isJsonType(context.request)) {
    const message = 'This address takes JSON, with the content type application/json.';
    return refuse(415, message, isInterface);
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
    if (isStoreAway(error)) {
      return refuse(503, AWAY, isInterface, { 'retry-after': RETRY_AFTER_S });
    }
    const message = 'Something went wrong on our side; nothing you sent was recorded.';
    return refuse(500, message, isInterface);
  }
});

/** Counts a request against whoever sends it: the seconds they have to wait, 0 for none. */
function takeFor({ request, routePattern, clientAddress }: APIContext, person: string | null) {
  const cost = costOf(plainPath(routePattern), request.method);
  return takeRequest({ person, address: browserAddress(request, clientAddress) }, cost);
}

/** An interface says why in its one shape; without a body, the server puts a page's own sentence there. */
function refuse(
  status: number,
  message: string,
  isInterface: boolean,
  headers: Readonly<Record<string, string>> = {},
): Response {
  const reply = isInterface
    ? replyJson({ error: { path: '', message } }, status)
    : new Response(null, { status });
  for (const [name, value] of Object.entries(headers)) reply.headers.set(name, value);
  return reply;
}
