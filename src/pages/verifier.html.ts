import { VERIFIER } from 'virtual:verifier';
import type { APIRoute } from 'astro';
import { getSite } from '../accounts/index.ts';
import { didOf } from '../records/index.ts';

export const prerender = false;

/**
 * The one file that checks proofs alone. It carries this site's key for the reader to compare; it is a
 * download and never a page of this site, whose own policy allows no script inside a page.
 */
export const GET: APIRoute = async () => {
  const { siteKey } = await getSite();
  const file = VERIFIER.replace('data-suggested=""', `data-suggested="${didOf(siteKey.keyId)}"`);
  return new Response(file, {
    headers: {
      'content-type': 'text/html; charset=utf-8',
      'content-disposition': 'attachment; filename="verifier.html"',
      'cache-control': 'no-cache',
    },
  });
};
