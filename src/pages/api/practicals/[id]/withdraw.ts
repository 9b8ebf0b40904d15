import type { APIRoute } from 'astro';
import { getSite, readJson } from '../../../../accounts/index.ts';
import { replyDone } from '../../../_desk/refused.ts';
import { withdrawPractical } from '../../../_desk/withdraw-practical.ts';

export const prerender = false;

/** Takes a signed practical back: `{reason}` in. */
export const POST: APIRoute = async ({ request, locals, params }) =>
  replyDone(
    await withdrawPractical(
      locals.viewer,
      params['id'] ?? '',
      await readJson(request),
      await getSite(),
    ),
    request,
  );
