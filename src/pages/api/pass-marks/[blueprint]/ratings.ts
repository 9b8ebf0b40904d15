import type { APIRoute } from 'astro';
import { getSite, readJson, replyJson, replyRefusal } from '../../../../accounts/index.ts';
import { rateBlueprint } from '../../../../attempts/index.ts';

export const prerender = false;

/** Enters the viewer's ratings for their next round: `{id?, version, ratings: {part: share}}` in, `{round}` out. */
export const POST: APIRoute = async ({ request, locals, params }) => {
  const done = await rateBlueprint(
    await getSite(),
    locals.viewer,
    params['blueprint'] ?? '',
    await readJson(request),
  );
  return done.ok ? replyJson(done.value, 201) : replyRefusal(done.refusal);
};
