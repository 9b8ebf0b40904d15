import type { APIRoute } from 'astro';
import { getSite } from '../accounts/index.ts';
import { verifierOf } from './_pack/verifier.ts';

export const prerender = false;

/**
 * The one file that checks proofs alone. It carries this site's key for the reader to compare; it is a
 * download and never a page of this site, whose own policy allows no script inside a page.
 */
export const GET: APIRoute = async () =>
  new Response(verifierOf(await getSite()), {
    headers: {
      'content-type': 'text/html; charset=utf-8',
      'content-disposition': 'attachment; filename="verifier.html"',
      'cache-control': 'no-cache',
    },
  });
