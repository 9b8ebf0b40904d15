import type { APIRoute } from 'astro';
import { getSite, ownSessionOf, readJson, replyJson } from '../../../accounts/index.ts';
import { answerPasskey } from '../../_desk/passkeys.ts';
import { replyDone } from '../../_desk/refused.ts';

export const prerender = false;

/** What a passkey answered: `{for, answer, name?}` in, the cookies of the session out. */
export const POST: APIRoute = async ({ request }) => {
  const site = await getSite();
  const session = await ownSessionOf(request, site);
  const done = await answerPasskey(session, await readJson(request), request, site);
  if (!done.ok) return replyDone(done, request);
  const reply = replyJson({ done: true });
  for (const cookie of done.value) reply.headers.append('set-cookie', cookie);
  return reply;
};
