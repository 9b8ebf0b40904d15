import type { APIRoute } from 'astro';
import { getSite, readJson, replyJson, replyRefusal } from '../../../accounts/index.ts';
import { handInSitting } from '../../../attempts/index.ts';

export const prerender = false;

/** Hands a test in: `{attempt, hold, revision, work}` in; where it can be read out, and nothing of the result. */
export const POST: APIRoute = async ({ request, locals }) => {
  const outcome = await handInSitting(await getSite(), locals.viewer, await readJson(request));
  return outcome.ok ? replyJson(outcome.value) : replyRefusal(outcome.refusal);
};
