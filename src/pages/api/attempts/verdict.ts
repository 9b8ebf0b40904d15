import type { APIRoute } from 'astro';
import { getSite, readJson, replyJson, replyRefusal } from '../../../accounts/index.ts';
import { tellVerdict } from '../../../attempts/index.ts';

export const prerender = false;

/** How the settings stand after these actions, in practice: `{token, actions}` in. */
export const POST: APIRoute = async ({ request, locals }) => {
  const outcome = tellVerdict(await getSite(), locals.viewer, await readJson(request));
  return outcome.ok ? replyJson(outcome.value) : replyRefusal(outcome.refusal);
};
