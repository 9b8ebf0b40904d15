import type { APIRoute } from 'astro';
import { getSite, openShare } from '../../../accounts/index.ts';
import { dayOf } from '../../../competence/index.ts';
import { replyFile } from '../../_pack/reply-file.ts';
import { sharedPack } from '../../_pack/shared.ts';
import { verifierOf } from '../../_pack/verifier.ts';
import { ownAddress } from '../../_people/own-address.ts';

export const prerender = false;

const PACK = /^pack-(en|de)-(a4|letter)\.(pdf|zip)$/;
const LEAVE = /^authorisation-[0-9a-f-]{36}\.json$/;
const QUIET = {
  'cache-control': 'no-store',
  'x-robots-tag': 'noindex, nofollow',
  'referrer-policy': 'no-referrer',
};

/** The same for a link that is not known, has run out or was ended, and for a file that is none of it. */
const nothing = (): Response =>
  new Response('There is nothing at this address.\n', {
    status: 404,
    headers: { ...QUIET, 'content-type': 'text/plain; charset=utf-8' },
  });

/** What a link lets an inspector take along: the document, the zip, or one proof. */
export const GET: APIRoute = async ({ params, request }) => {
  const { file = '', token = '' } = params;
  const [, language, paper, kind] = PACK.exec(file) ?? [];
  const isLeave = LEAVE.test(file);
  if (kind === undefined && !isLeave) return nothing();
  const site = await getSite();
  const link = await openShare(token, site);
  if (link === null) return nothing();
  const made = new Date().toISOString();
  const asked = {
    org: link.org,
    made,
    addressOf: (path: string) => ownAddress(path, request),
    choice: {
      people: link.people,
      bench: link.bench,
      asOf: dayOf(made),
      language: language === 'de' ? 'de' : 'en',
      paper: paper === 'letter' ? 'letter' : 'a4',
      photos: 'left-out',
      earlier: '',
    },
  } as const;
  const pack = await sharedPack(link, asked, site, verifierOf(site));
  if (!isLeave) {
    const reply = replyFile(kind === 'pdf' ? 'pack.pdf' : 'pack.zip', pack);
    reply.headers.set('referrer-policy', 'no-referrer');
    return reply;
  }
  const proofs = pack.content.people.flatMap(({ leaves }) => leaves.map(({ proof }) => proof));
  const found = proofs.find((proof) => proof.ok && proof.path === `proofs/${file}`);
  if (found === undefined || !found.ok) return nothing();
  return new Response(new Uint8Array(found.bytes), {
    headers: {
      ...QUIET,
      'content-type': 'application/json; charset=utf-8',
      'content-disposition': `attachment; filename="${file}"`,
    },
  });
};
