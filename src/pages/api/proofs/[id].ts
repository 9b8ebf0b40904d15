import type { APIRoute } from 'astro';
import { can, getSite, replyJson } from '../../../accounts/index.ts';
import { recordOf } from '../../_desk/proof-of.ts';
import { refused, replyDone } from '../../_desk/refused.ts';

export const prerender = false;

/** The proof of one sign-off as a file that can be checked without this site. */
export const GET: APIRoute = async ({ locals: { viewer }, params }) => {
  if (viewer === null) return replyDone(refused(401, '', 'Sign in to take a proof.'));
  const id = params['id'] ?? '';
  const record = await recordOf(id, viewer.org, await getSite());
  if (record.state === 'none') {
    return replyDone(refused(404, 'id', 'There is no such signed practical.'));
  }
  const person = record.event?.body.statement.who.person;
  const subject = { org: viewer.org, ...(person === undefined ? {} : { person }) };
  if (!can(viewer, 'proof.read', subject)) {
    const sentence = 'A proof is open to the person it is about, the trainers and the employer.';
    return replyDone(refused(403, '', sentence));
  }
  if (record.state === 'not-yet') {
    return replyDone(
      refused(409, 'id', 'There is no proof of a practical that was not signed off.'),
    );
  }
  if (record.state === 'broken') {
    return replyDone(
      refused(409, 'id', `This record is broken, so no proof is made of it. ${record.sentence}`),
    );
  }
  const reply = replyJson(record.file);
  reply.headers.set('content-disposition', `attachment; filename="proof-${id}.json"`);
  return reply;
};
