import type { APIContext, APIRoute } from 'astro';
import { getSite } from '../../../accounts/index.ts';
import { keepPhoto, type PhotoName, photoOf } from '../../_desk/keep-photo.ts';
import { replyDone } from '../../_desk/refused.ts';

export const prerender = false;

const nameOf = ({ params, url }: Pick<APIContext, 'params' | 'url'>): PhotoName => ({
  digest: params['digest'] ?? '',
  signoff: url.searchParams.get('signoff') ?? '',
});

/** Takes in a photo that a signed practical names: the JPEG itself in, `{digest, signoff}` out. */
export const PUT: APIRoute = async (context) => {
  const { request, locals } = context;
  const bytes = new Uint8Array(await request.arrayBuffer());
  const type = request.headers.get('content-type') ?? '';
  const done = await keepPhoto(locals.viewer, nameOf(context), { type, bytes }, await getSite());
  return replyDone(done, request);
};

/** The photo, for those who may read the practical. It belongs to a person, so nothing keeps it. */
export const GET: APIRoute = async (context) => {
  const name = nameOf(context);
  const done = await photoOf(context.locals.viewer, name, await getSite());
  if (!done.ok) return replyDone(done, context.request);
  return new Response(done.value.slice(), {
    headers: {
      'content-type': 'image/jpeg',
      'content-disposition': `inline; filename="photo-${name.digest.slice(0, 12)}.jpg"`,
      'cache-control': 'no-store',
      'x-content-type-options': 'nosniff',
    },
  });
};
