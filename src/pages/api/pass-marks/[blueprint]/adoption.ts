import type { APIRoute } from 'astro';
import { getSite, readJson, replyJson, replyRefusal } from '../../../../accounts/index.ts';
import { adoptMark } from '../../../../attempts/index.ts';

export const prerender = false;

/** Puts the mark in force that the ratings come to: `{id?, version, mark}` in, `{mark}` out. */
export const POST: APIRoute = async ({ request, locals, params }) => {
  const done = await adoptMark(
    await getSite(),
    locals.viewer,
    params['blueprint'] ?? '',
    await readJson(request),
  );
  return done.ok ? replyJson(done.value, 201) : replyRefusal(done.refusal);
};
