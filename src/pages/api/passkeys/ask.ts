import type { APIRoute } from 'astro';
import { getSite, ownSessionOf, readJson, replyJson } from '../../../accounts/index.ts';
import { askPasskey } from '../../_desk/passkeys.ts';
import { replyDone } from '../../_desk/refused.ts';

export const prerender = false;

/** What the browser needs to ask for a passkey, or to make one: `{for, statements?}` in, options out. */
export const POST: APIRoute = async ({ request }) => {
  const site = await getSite();
  const session = await ownSessionOf(request, site);
  const asked = await askPasskey(session, await readJson(request), request, site);
  return asked.ok ? replyJson(asked.value) : replyDone(asked, request);
};
