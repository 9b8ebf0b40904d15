import { z } from 'zod';
import { can, type Site, type Viewer } from '../../accounts/index.ts';
import { describeProblem } from '../../bench/index.ts';
import { newId } from '../../records/index.ts';
import { isIdConflict } from '../../store/index.ts';
import { type Done, refused, refusedFor } from './refused.ts';
import { whyNotWrite } from './workshop.ts';

const reasonRule = 'must be 1 to 300 characters, about the work or the machine';
const RequestSchema = z.object(
  {
    /** made where the button is, so that pressing it twice withdraws once */
    id: z.uuidv7({ error: 'must be a UUID of version 7' }).optional(),
    reason: z
      .string({ error: reasonRule })
      .trim()
      .min(1, { error: reasonRule })
      .max(300, { error: reasonRule }),
  },
  { error: 'must hold the fields of the form' },
);

export type Withdrawn = { readonly signoff: string; readonly at: string };

/** Takes a signed practical back, with a reason. The record stays; a new event says it no longer holds. */
export async function withdrawPractical(
  viewer: Viewer | null,
  signoff: string,
  input: unknown,
  site: Site,
): Promise<Done<Withdrawn>> {
  if (viewer === null) return refusedFor(401, '', whyNotWrite(null));
  if (viewer.role !== 'trainer') return refusedFor(403, '', whyNotWrite(viewer));
  const stored = await site.store.event(signoff);
  const event = stored?.event ?? null;
  if (event?.kind !== 'practical.signed' || event.org !== viewer.org || event.about === null) {
    return refusedFor(404, 'signoff', 'desk.no-practical');
  }
  if (!can(viewer, 'practical.withdraw', { org: viewer.org, person: event.about })) {
    return refusedFor(403, '', whyNotWrite(viewer));
  }
  const read = RequestSchema.safeParse(input);
  if (!read.success) {
    const { path, message } = describeProblem(read.error, 'The form');
    return path === 'reason'
      ? refusedFor(400, path, 'desk.form.reason')
      : refused(400, path, message);
  }
  const id = read.data.id ?? newId();
  const before = await site.store.events({
    org: viewer.org,
    kinds: ['practical.withdrawn'],
    about: event.about,
  });
  const same = before.find(({ event: one }) => one?.body.signoff === signoff);
  if (same !== undefined && same.event?.id !== id) {
    return refusedFor(409, 'signoff', 'desk.withdrawn-already');
  }
  const at = same?.event?.at ?? new Date().toISOString();
  try {
    await site.store.append({
      id,
      kind: 'practical.withdrawn',
      version: 1,
      org: viewer.org,
      at,
      by: viewer.person,
      about: event.about,
      body: { signoff, reason: read.data.reason },
    });
  } catch (error) {
    if (isIdConflict(error)) return refused(422, 'id', error.message);
    throw error;
  }
  return { ok: true, value: { signoff, at } };
}
