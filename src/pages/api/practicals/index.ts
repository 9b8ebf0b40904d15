import type { APIRoute } from 'astro';
import { getSite, readJson } from '../../../accounts/index.ts';
import { receivePractical } from '../../_desk/receive-practical.ts';
import { replyDone } from '../../_desk/refused.ts';

export const prerender = false;

/** Takes in a signed practical: `{event, sheet, ticket}` in, its place in the log out. */
export const POST: APIRoute = async ({ request, locals }) =>
  replyDone(
    await receivePractical(locals.viewer, await readJson(request), await getSite()),
    request,
  );
