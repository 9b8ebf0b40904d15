import type { APIRoute } from 'astro';
import { browserAddress, getSite, readJson, relyingParty } from '../../../accounts/index.ts';
import { confirmSigner } from '../../_desk/confirm-signer.ts';
import { replyDone } from '../../_desk/refused.ts';

export const prerender = false;

/** Signs in again for up to 12 signatures: `{password or passkey, statements, key}` in, a ticket for each out. */
export const POST: APIRoute = async ({ request, locals, clientAddress }) => {
  const site = await getSite();
  const party = relyingParty(site, request.headers.get('origin'));
  const address = browserAddress(request, clientAddress);
  const input = await readJson(request);
  return replyDone(await confirmSigner(locals.viewer, input, address, site, party), request);
};
