import type { APIRoute } from 'astro';
import { getSite, readJson } from '../../../accounts/index.ts';
import { enrolKey } from '../../_desk/enrol-key.ts';
import { replyDone } from '../../_desk/refused.ts';

export const prerender = false;

/** Enters this device's key in the log: `{keyId, publicKey, label, ticket}` in. */
export const POST: APIRoute = async ({ request, locals }) =>
  replyDone(await enrolKey(locals.viewer, await readJson(request), await getSite()), request);
