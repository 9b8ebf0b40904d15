import type { APIRoute } from 'astro';
import { getSite, replyJson } from '../../accounts/index.ts';
import { logError } from '../../logging/index.ts';

export const prerender = false;

/** 200 while the store answers, 503 when it does not. Tells nothing about anybody. */
export const GET: APIRoute = async () => {
  try {
    const { store } = await getSite();
    await store.checkpoint();
    return replyJson({ ok: true });
  } catch (error) {
    logError(error);
    return replyJson(
      { ok: false, error: { path: '', message: 'The store does not answer.' } },
      503,
    );
  }
};
