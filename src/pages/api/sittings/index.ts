import type { APIRoute } from 'astro';
import { getSite, readJson, replyJson, replyRefusal } from '../../../accounts/index.ts';
import { openSitting } from '../../../attempts/index.ts';

export const prerender = false;

/** Begins, goes on with or takes over a test: `{blueprint, hold, how, time}` in; the form as it is sat out. */
export const POST: APIRoute = async ({ request, locals }) => {
  const outcome = await openSitting(await getSite(), locals.viewer, await readJson(request));
  return outcome.ok ? replyJson(outcome.value) : replyRefusal(outcome.refusal);
};
