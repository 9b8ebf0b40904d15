import type { APIRoute } from 'astro';
import { can, getSite } from '../../accounts/index.ts';
import { openCheckpoint } from '../../records/index.ts';
import { sayIn } from '../../words/say.ts';
import { refused, replyDone } from '../_desk/refused.ts';

export const prerender = false;

/** The newest checkpoint as a file to keep elsewhere. */
export const GET: APIRoute = async ({ locals: { viewer }, request }) => {
  if (!can(viewer, 'checkpoint.read', { org: viewer?.org ?? '' })) {
    const sentence = sayIn('en')('checkpoints.refused');
    return replyDone(refused(viewer === null ? 401 : 403, '', sentence), request);
  }
  const { siteKey, store } = await getSite();
  const note = await store.checkpoint();
  const opened = await openCheckpoint(note, [siteKey.publicKey]);
  const size = opened.ok ? opened.checkpoint.size : 0;
  return new Response(note, {
    headers: {
      'content-type': 'text/plain; charset=utf-8',
      'content-disposition': `attachment; filename="checkpoint-${size}.txt"`,
      'cache-control': 'no-store',
    },
  });
};
