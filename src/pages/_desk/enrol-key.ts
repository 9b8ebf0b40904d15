import { z } from 'zod';
import { appendSigned, can, type Site, type Viewer } from '../../accounts/index.ts';
import { describeProblem } from '../../bench/index.ts';
import { enrolmentHash } from '../../panels/signing/index.ts';
import { EVENT_KINDS, newId } from '../../records/index.ts';
import { type Done, refused, refusedFor } from './refused.ts';
import { whyNotWrite } from './workshop.ts';

const must = 'must be the ticket of a fresh sign-in';
const RequestSchema = z.object(
  {
    ticket: z.string({ error: must }).min(1, { error: must }).max(200, { error: must }),
  },
  { error: 'must hold the key and its ticket' },
);

export type Enrolled = { readonly keyId: string; readonly state: 'enrolled' };

/** Enters a device key in the log under the trainer's own account, after a fresh sign-in for that key. */
export async function enrolKey(
  viewer: Viewer | null,
  input: unknown,
  site: Site,
): Promise<Done<Enrolled>> {
  if (viewer === null) return refusedFor(401, '', whyNotWrite(null));
  if (!can(viewer, 'device-key.enrol', { org: viewer.org, person: viewer.person })) {
    return refusedFor(403, '', whyNotWrite(viewer));
  }
  const ticket = RequestSchema.safeParse(input);
  if (!ticket.success) {
    const { path, message } = describeProblem(ticket.error, 'The request');
    return refused(400, path, message);
  }
  const { ticket: _, ...rest } = input as Record<string, unknown>;
  const body = EVENT_KINDS['device-key.enrolled'].body.safeParse(rest);
  if (!body.success) {
    const { path, message } = describeProblem(body.error, 'The device key');
    return refused(400, path, message);
  }
  const { keyId } = body.data;
  const known = await site.store.events({
    org: viewer.org,
    kinds: ['device-key.enrolled', 'device-key.ended'],
  });
  const same = known.filter(({ event }) => event?.body.keyId === keyId);
  if (same.some(({ event }) => event?.kind === 'device-key.ended')) {
    return refusedFor(422, 'keyId', 'desk.key.ended');
  }
  if (same.some(({ event }) => event?.about !== viewer.person)) {
    return refusedFor(422, 'keyId', 'desk.key.other');
  }
  if (same.length > 0) return { ok: true, value: { keyId, state: 'enrolled' } };
  const entered = await appendSigned(
    viewer,
    {
      id: newId(),
      kind: 'device-key.enrolled',
      version: 1,
      org: viewer.org,
      at: new Date().toISOString(),
      by: viewer.person,
      about: viewer.person,
      body: body.data,
    },
    { ticket: ticket.data.ticket, statementHash: enrolmentHash(keyId) },
    site,
  );
  if (!entered.ok) return { ok: false, ...entered.refusal };
  return { ok: true, value: { keyId, state: 'enrolled' } };
}
