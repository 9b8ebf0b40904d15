import { defineMiddleware } from 'astro:middleware';
import { replyJson, viewerOf } from './accounts/index.ts';

/**
 * Gives every page made on demand the person who asks for it. An interface that throws answers in its one
 * shape, and nothing of the error leaves the server.
 */
export const onRequest = defineMiddleware(async (context, next) => {
  if (context.isPrerendered) {
    context.locals.viewer = null;
    return next();
  }
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
    if (!isInterface) throw error;
    console.error(error);
    const message = 'Something went wrong on our side; nothing you sent was recorded.';
    return replyJson({ error: { path: '', message } }, 500);
  }
});
