import type { APIRoute } from 'astro';
import { can, getSite } from '../../accounts/index.ts';
import { openCheckpoint, toBase64 } from '../../records/index.ts';
import { sayIn } from '../../words/say.ts';
import { refused, replyDone } from '../_desk/refused.ts';

export const prerender = false;

/** Entries in a log, as a checkpoint writes them; one digit short of where whole numbers end. */
const SIZE = /^(0|[1-9][0-9]{0,14})$/;

/**
 * The newest checkpoint as a file to keep elsewhere; with `from`, the size of one kept, as JSON with the proof
 * that the log goes on from there.
 */
export const GET: APIRoute = async ({ locals: { viewer }, request }) => {
  if (!can(viewer, 'checkpoint.read', { org: viewer?.org ?? '' })) {
    const sentence = sayIn('en')('checkpoints.refused');
    return replyDone(refused(viewer === null ? 401 : 403, '', sentence), request);
  }
  const { siteKey, store } = await getSite();
  const from = new URL(request.url).searchParams.get('from');
  if (from !== null) {
    if (!SIZE.test(from)) {
      return replyDone(refused(400, 'from', 'from must be a whole number from 0.'), request);
    }
    const { checkpoint, path } = await store.continuation(Number(from));
    return replyDone({ ok: true, value: { checkpoint, path: path.map(toBase64) } }, request);
  }
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
