import { z } from 'zod';
import { confirmSignIns, endSessions, type Site, type Viewer } from '../../accounts/index.ts';
import { describeProblem } from '../../bench/index.ts';
import { END_REASONS } from '../../components/practical/device-view.ts';
import { appendOnce } from './append-once.ts';
import { mayEndKey } from './device-keys.ts';
import { isKeyEnded } from './find-device-key.ts';
import { type Done, refused, refusedFor } from './refused.ts';

const RequestSchema = z.object(
  {
    /** made where the form is, so that pressing twice ends it once */
    id: z.uuidv7({ error: 'must be a UUID of version 7' }),
    keyId: z
      .string({ error: 'must be the id of a device key' })
      .min(1, { error: 'must be the id of a device key' })
      .max(60, { error: 'must be the id of a device key' }),
    reason: z.enum(END_REASONS, { error: 'must be one of the reasons listed' }),
    password: z
      .string({ error: 'must be filled in' })
      .min(1, { error: 'must be filled in' })
      .max(128, { error: 'must be at most 128 characters' }),
  },
  { error: 'must hold the fields of the form' },
);

export type KeyEnded = {
  readonly id: string;
  readonly at: string;
  /** sessions of its owner that were ended with it */
  readonly signedOut: number;
};

/** Where a request comes from: its address counts wrong passwords, its headers say which session goes on. */
type From = { readonly address: string | null; readonly headers: Headers | null };

/**
 * Ends a device key after a fresh sign-in: one's own, or another trainer's who cannot. What it signed stays
 * valid; nothing it signs is taken in from here on. A lost or stolen device is signed out as well.
 */
export async function endDeviceKey(
  viewer: Viewer | null,
  input: unknown,
  from: From,
  site: Site,
): Promise<Done<KeyEnded>> {
  if (viewer === null) return refusedFor(401, '', 'desk.signed-out');
  if (viewer.role === 'trainee') return refusedFor(403, '', 'desk.end-key.who');
  const read = RequestSchema.safeParse(input);
  if (!read.success) {
    const { path, message } = describeProblem(read.error, 'The form');
    if (path === 'reason') return refusedFor(400, path, 'desk.end-key.reason');
    if (path === 'password') return refusedFor(400, path, 'desk.end-key.password');
    return refused(400, path, message);
  }
  const { id, keyId, reason, password } = read.data;
  const { org } = viewer;
  const keys = await site.store.events({ org, kinds: ['device-key.enrolled'] });
  const owner = keys.find(({ event }) => event?.body.keyId === keyId)?.event?.about ?? null;
  if (owner === null) return refusedFor(404, 'keyId', 'desk.end-key.none');
  if (!mayEndKey(viewer, owner)) return refusedFor(403, '', 'desk.end-key.who');
  const signedIn = await confirmSignIns(viewer, password, [], from.address, site);
  if (!signedIn.ok) {
    const { refusal } = signedIn;
    return refusal.status === 401
      ? refusedFor(401, 'password', 'desk.end-key.wrong')
      : { ok: false, ...refusal };
  }
  const before = await site.store.event(id);
  const ended = await appendOnce(
    {
      id,
      kind: 'device-key.ended',
      version: 1,
      org,
      at: before?.event?.at ?? new Date().toISOString(),
      by: viewer.person,
      about: owner,
      body: { keyId, reason },
    },
    async (write) =>
      (await isKeyEnded(write, { org, person: owner }, keyId))
        ? refusedFor(409, 'keyId', 'desk.end-key.twice')
        : null,
    site,
  );
  if (!ended.ok) return ended;
  const isGone = reason === 'lost' || reason === 'stolen';
  const keep = owner === viewer.person ? from.headers : null;
  const signedOut = isGone ? await endSessions(owner, keep, site) : 0;
  return { ok: true, value: { ...ended.value, signedOut } };
}
