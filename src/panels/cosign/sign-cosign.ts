import { signCosign } from '../../records/check/index.ts';
import type { Cosign } from '../../records/index.ts';
import {
  confirmByPasskey,
  confirmOnSite,
  type DeviceLabel,
  deviceKeyOf,
  enrol,
  markEnrolled,
  postJson,
  type Reply,
  statementHashOf,
} from '../signing/index.ts';

type Given = {
  /** the person watched */
  readonly about: string;
  /** how the second trainer signs in again; `failed` is what to say when the browser gave up on the passkey */
  readonly by: { readonly password: string } | { readonly failed: string };
  readonly device: DeviceLabel;
};

/**
 * Signs a second trainer's word with this device's key, after a fresh sign-in on the site for these very
 * bytes, and sends it. It needs the network: nobody reads a record without it.
 */
export async function signAndSend(cosign: Cosign, given: Given): Promise<Reply<unknown>> {
  const { person } = cosign.trainer;
  const key = await deviceKeyOf(person);
  const hashes = [statementHashOf(cosign)];
  const confirmed =
    'password' in given.by
      ? await confirmOnSite(given.by.password, hashes, key)
      : await confirmByPasskey(hashes, key, given.by.failed);
  if (!confirmed.ok) return confirmed;
  const enrolled = await enrol(key, given.device, confirmed.value.enrolTicket);
  if (!enrolled.ok) return enrolled;
  const body = await signCosign(cosign, key);
  const event = {
    id: cosign.id,
    kind: 'practical.cosigned',
    version: 1,
    org: cosign.org,
    at: new Date().toISOString(),
    by: person,
    about: given.about,
    body,
  };
  const [ticket] = confirmed.value.tickets;
  const reply = await postJson(`/api/practicals/${cosign.signoff}/cosign`, { event, ticket });
  // the log has ended this key, or never had it: the next try enrols it again, or makes a new one
  if (!reply.ok && reply.path === 'keyId') await markEnrolled(key, 'not');
  return reply;
}
