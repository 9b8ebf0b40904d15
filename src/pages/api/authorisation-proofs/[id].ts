import type { APIRoute } from 'astro';
import { can, getSite, replyJson } from '../../../accounts/index.ts';
import { SHOWN_LEVELS } from '../../../records/index.ts';
import { findLeave, leaveProofOf } from '../../_desk/leave-proof.ts';
import { refusedFor, replyDone } from '../../_desk/refused.ts';

export const prerender = false;

/** The proof of leave to work as a file: `show` says how much of the practicals, `names=none` leaves names out. */
export const GET: APIRoute = async ({ locals: { viewer }, params, request, url }) => {
  if (viewer === null) return replyDone(refusedFor(401, '', 'desk.leave.signed-out'), request);
  const site = await getSite();
  const given = await findLeave(params['id'] ?? '', viewer.org, site);
  if (given === null) return replyDone(refusedFor(404, 'id', 'desk.leave.none'), request);
  const subject = { org: viewer.org, person: given.body.statement.who.person };
  if (!can(viewer, 'proof.read', subject)) {
    return replyDone(refusedFor(403, '', 'desk.leave.refused'), request);
  }
  const asked = url.searchParams.get('show');
  const shown = SHOWN_LEVELS.find((level) => level === asked) ?? 'nothing';
  const names = url.searchParams.get('names') === 'none' ? 'left-out' : 'shown';
  const done = await leaveProofOf(given, { shown, names }, site);
  if (!done.ok) return replyDone(done, request);
  const reply = replyJson(done.value.file);
  reply.headers.set('content-disposition', `attachment; filename="leave-${given.id}.json"`);
  return reply;
};
