import { z } from 'zod';
import { can, type Site, type Viewer } from '../../accounts/index.ts';
import { describeProblem } from '../../bench/index.ts';
import { appendOnce, eventsAt } from './append-once.ts';
import { findSigned } from './find-signed.ts';
import { type Done, refused, refusedFor } from './refused.ts';

export const OUTCOMES = ['stands', 'watch-again'] as const;
export type Outcome = (typeof OUTCOMES)[number];

const reasonRule = 'must be 1 to 300 characters';
const RequestSchema = z.object(
  {
    /** made where the form is, so that pressing twice settles once */
    id: z.uuidv7({ error: 'must be a UUID of version 7' }),
    appeal: z.uuidv7({ error: 'must be the id of an appeal' }),
    outcome: z.enum(OUTCOMES, { error: 'must be stands or watch-again' }),
    reason: z
      .string({ error: reasonRule })
      .trim()
      .min(1, { error: reasonRule })
      .max(300, { error: reasonRule }),
  },
  { error: 'must hold the fields of the form' },
);

/** Settles an appeal: by a trainer or the employer who neither signed the practical nor was watched. */
export async function settleAppeal(
  viewer: Viewer | null,
  signoff: string,
  input: unknown,
  site: Site,
): Promise<Done<{ readonly id: string; readonly at: string }>> {
  if (viewer === null) return refusedFor(401, '', 'desk.signed-out');
  const found = await findSigned(viewer, signoff, site);
  if (!found.ok) return found;
  const { about, by: signer } = found.value;
  if (!can(viewer, 'appeal.settle', { org: viewer.org, person: about })) {
    return refusedFor(403, '', 'desk.appeal.who');
  }
  if (signer === viewer.person) return refusedFor(403, '', 'desk.appeal.signer');
  const read = RequestSchema.safeParse(input);
  if (!read.success) {
    const { path, message } = describeProblem(read.error, 'The form');
    if (path === 'outcome') return refusedFor(400, path, 'desk.appeal.outcome');
    if (path === 'reason') return refusedFor(400, path, 'desk.form.reason');
    return refused(400, path, message);
  }
  const { id, appeal, outcome, reason } = read.data;
  const asked = await site.store.event(appeal);
  const isAppeal =
    asked?.broken === null &&
    asked.event.kind === 'practical.answered' &&
    asked.event.org === viewer.org &&
    asked.event.body.answer === 'appeals' &&
    asked.event.body.signoff === signoff;
  if (!isAppeal) return refusedFor(404, 'appeal', 'desk.appeal.none');
  const { org, person } = viewer;
  const before = await site.store.event(id);
  return appendOnce(
    {
      id,
      kind: 'appeal.settled',
      version: 1,
      org,
      at: before?.event?.at ?? new Date().toISOString(),
      by: person,
      about,
      body: { appeal, outcome, reason },
    },
    async (write) => {
      const settled = await eventsAt(write, { org, about, kinds: ['appeal.settled'] });
      const isSettled = settled.some(({ body }) => body.appeal === appeal);
      return isSettled ? refusedFor(409, 'appeal', 'desk.appeal.settled') : null;
    },
    site,
  );
}
