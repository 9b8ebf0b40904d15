import type { APIRoute } from 'astro';
import { getSite, readJson } from '../../../accounts/index.ts';
import { confirmSigner } from '../../_desk/confirm-signer.ts';
import { replyDone } from '../../_desk/refused.ts';

export const prerender = false;

/** Signs in again for up to 12 signatures: `{password, statements, key}` in, a ticket for each out. */
export const POST: APIRoute = async ({ request, locals, clientAddress }) =>
  replyDone(
    await confirmSigner(locals.viewer, await readJson(request), clientAddress, await getSite()),
    request,
  );
