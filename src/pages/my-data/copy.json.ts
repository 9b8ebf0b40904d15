import type { APIRoute } from 'astro';
import { getSite, ownData, replyRefusal, seeOther } from '../../accounts/index.ts';
import { signInPath } from '../../components/sign-in-path.ts';

export const prerender = false;

/** The copy of one's own data as a file. */
export const GET: APIRoute = async ({ locals, url }) => {
  if (locals.viewer === null) return seeOther(signInPath(url));
  const data = await ownData(locals.viewer, await getSite());
  if (!data.ok) return replyRefusal(data.refusal);
  return new Response(`${JSON.stringify(data.value, null, 2)}\n`, {
    headers: {
      'content-type': 'application/json; charset=utf-8',
      'content-disposition': 'attachment; filename="my-data.json"',
      'cache-control': 'no-store',
    },
  });
};
