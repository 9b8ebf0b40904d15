import type { APIRoute } from 'astro';
import { getSite, readJson, replyJson, replyRefusal } from '../../../accounts/index.ts';
import { saveSitting } from '../../../attempts/index.ts';

export const prerender = false;

/** Keeps what was done so far: `{attempt, hold, revision, work, pause}` in; revision and time out. */
export const POST: APIRoute = async ({ request, locals }) => {
  const outcome = await saveSitting(await getSite(), locals.viewer, await readJson(request));
  return outcome.ok ? replyJson(outcome.value) : replyRefusal(outcome.refusal);
};
