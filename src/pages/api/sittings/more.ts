import type { APIRoute } from 'astro';
import { getSite, readJson, replyJson, replyRefusal } from '../../../accounts/index.ts';
import { askMoreTime } from '../../../attempts/index.ts';

export const prerender = false;

/** Ten minutes more: `{attempt, hold}` in; the time out. */
export const POST: APIRoute = async ({ request, locals }) => {
  const outcome = await askMoreTime(await getSite(), locals.viewer, await readJson(request));
  return outcome.ok ? replyJson(outcome.value) : replyRefusal(outcome.refusal);
};
