import type { APIRoute } from 'astro';
import { getSite, readJson, replyJson, replyRefusal } from '../../../accounts/index.ts';
import { startAttempt } from '../../../attempts/index.ts';

export const prerender = false;

/** Gives a bench for a task: `{task}` in; token, bench, task and word lists out. */
export const POST: APIRoute = async ({ request, locals }) => {
  const outcome = await startAttempt(await getSite(), locals.viewer, await readJson(request));
  return outcome.ok ? replyJson(outcome.value, 201) : replyRefusal(outcome.refusal);
};
