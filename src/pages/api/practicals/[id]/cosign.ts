import type { APIRoute } from 'astro';
import { getSite, readJson } from '../../../../accounts/index.ts';
import { receiveCosign } from '../../../_desk/receive-cosign.ts';
import { replyDone } from '../../../_desk/refused.ts';

export const prerender = false;

/** Takes in a second trainer's signed word: `{event, ticket}` in, its place in the log out. */
export const POST: APIRoute = async ({ request, locals, params }) =>
  replyDone(
    await receiveCosign(
      locals.viewer,
      params['id'] ?? '',
      await readJson(request),
      await getSite(),
    ),
    request,
  );
