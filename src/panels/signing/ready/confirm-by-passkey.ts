import type { PublicKeyCredentialRequestOptionsJSON } from '@simplewebauthn/browser';
import { enrolmentHash } from '../enrolment-hash.ts';
import { postJson, type Reply } from '../post-json.ts';
import type { DeviceKey } from '../store/kept.ts';
import type { Tickets } from './enrol.ts';

/**
 * Signs in again for these statements with a passkey, and for a key that is new to the site. The site asks the passkey
 * about just these statements.
 * @param failed what to say when the browser gave up
 */
export async function confirmByPasskey(
  statements: readonly string[],
  key: DeviceKey | null,
  failed: string,
): Promise<Reply<Tickets>> {
  const about = {
    statements,
    key: key === null || key.enrolled ? null : enrolmentHash(key.keyId),
  };
  const asked = await postJson<PublicKeyCredentialRequestOptionsJSON>('/api/passkeys/ask', {
    for: 'sign',
    ...about,
  });
  if (!asked.ok) return asked;
  const { startAuthentication } = await import('@simplewebauthn/browser');
  try {
    const passkey = await startAuthentication({ optionsJSON: asked.value });
    return await postJson<Tickets>('/api/practicals/confirm', { passkey, ...about });
  } catch {
    // the person closed the window of the browser, or the passkey did not answer in time
    return { ok: false, status: 0, path: 'password', message: failed };
  }
}
