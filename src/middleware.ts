import { defineMiddleware } from 'astro:middleware';
import { replyJson, viewerOf } from './accounts/index.ts';
import { logError, noteRoute } from './logging/index.ts';

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
  try {
    context.locals.viewer = await viewerOf(context.request);
    const response = await next();
    const isJson = response.headers.get('content-type')?.includes('json') ?? false;
    if (!isInterface || isJson || response.status !== 404) return response;
    // The address is an interface, or this would not run: it is the method that it has no answer for.
    const message = `This address does not take ${context.request.method}.`;
    return replyJson({ error: { path: '', message } }, 405);
  } catch (error) {
    logError(error);
    // without a body, the server puts its own sentence there
    if (!isInterface) return new Response(null, { status: 500 });
    const message = 'Something went wrong on our side; nothing you sent was recorded.';
    return replyJson({ error: { path: '', message } }, 500);
  }
});
