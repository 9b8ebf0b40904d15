import { publicJwkOf } from '../../../records/check/index.ts';
import { enrolmentHash } from '../enrolment-hash.ts';
import { postJson, type Reply } from '../post-json.ts';
import { dropKey, markEnrolled } from '../store/device-key.ts';
import type { DeviceKey, DeviceLabel } from '../store/kept.ts';

export type Tickets = {
  /** one to a statement, in their order */
  readonly tickets: readonly string[];
  readonly enrolTicket: string | null;
  readonly expires: string;
};

/** Most statements one password signs at once. */
export const MOST_AT_ONCE = 12;

/** Signs in again for these statements, and for a key that is new to the site. */
export const confirmOnSite = (
  password: string,
  statements: readonly string[],
  key: DeviceKey | null,
): Promise<Reply<Tickets>> =>
  postJson<Tickets>('/api/practicals/confirm', {
    password,
    statements,
    key: key === null || key.enrolled ? null : enrolmentHash(key.keyId),
  });

/** Makes the key known to the site, unless it is. */
export async function enrol(
  key: DeviceKey,
  label: DeviceLabel,
  ticket: string | null,
): Promise<Reply<unknown>> {
  if (key.enrolled || ticket === null) return { ok: true, value: null };
  const reply = await postJson('/api/device-keys', {
    keyId: key.keyId,
    publicKey: publicJwkOf(key.publicKey),
    label,
    ticket,
  });
  if (reply.ok) await markEnrolled(key, 'enrolled');
  // the log has ended this key, or it is somebody else's: the next try makes a new one
  else if (reply.path === 'keyId') await dropKey(key);
  return reply;
}
