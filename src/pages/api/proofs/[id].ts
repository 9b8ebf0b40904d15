import type { APIRoute } from 'astro';
import { can, getSite, replyJson } from '../../../accounts/index.ts';
import { recordOf } from '../../_desk/proof-of.ts';
import { refusedFor, replyDone } from '../../_desk/refused.ts';

export const prerender = false;

/** The proof of one sign-off as a file that can be checked without this site. */
export const GET: APIRoute = async ({ locals: { viewer }, params, request }) => {
  if (viewer === null) return replyDone(refusedFor(401, '', 'desk.proof.signed-out'), request);
  const id = params['id'] ?? '';
  const record = await recordOf(id, viewer.org, await getSite());
  if (record.state === 'none') {
    return replyDone(refusedFor(404, 'id', 'desk.no-practical'), request);
  }
  const person = record.event?.body.statement.who.person;
  const subject = { org: viewer.org, ...(person === undefined ? {} : { person }) };
  if (!can(viewer, 'proof.read', subject)) {
    return replyDone(refusedFor(403, '', 'desk.proof.refused'), request);
  }
  if (record.state === 'not-yet') {
    return replyDone(refusedFor(409, 'id', 'desk.proof.not-yet'), request);
  }
  if (record.state === 'broken') {
    return replyDone(refusedFor(409, 'id', 'desk.proof.broken', { why: record.sentence }), request);
  }
  const reply = replyJson(record.file);
  reply.headers.set('content-disposition', `attachment; filename="proof-${id}.json"`);
  return reply;
};
