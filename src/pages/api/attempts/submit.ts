import type { APIRoute } from 'astro';
import { getSite, readJson, replyJson, replyRefusal } from '../../../accounts/index.ts';
import { handIn } from '../../../attempts/index.ts';

export const prerender = false;

/** Hands an attempt in: `{token, actions, claims}` in; the graded result out. */
export const POST: APIRoute = async ({ request, locals }) => {
  const outcome = await handIn(await getSite(), locals.viewer, await readJson(request));
  return outcome.ok ? replyJson(outcome.value) : replyRefusal(outcome.refusal);
};
