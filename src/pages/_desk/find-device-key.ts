import type { Site } from '../../accounts/index.ts';
import { type Bytes, fromBase64Url } from '../../records/index.ts';
import type { StoreWrite } from '../../store/index.ts';
import { eventsAt } from './append-once.ts';

type Whose = { readonly org: string; readonly person: string };

/** The public half of a key that this person enrolled and nobody has ended; null otherwise. */
export async function findDeviceKey(
  { org, person }: Whose,
  keyId: string,
  { store }: Site,
): Promise<Bytes | null> {
  const keys = await store.events({
    org,
    kinds: ['device-key.enrolled', 'device-key.ended'],
    about: person,
  });
  // an end that was written over is still an end
  const ended = keys.some(
    ({ event }) => event?.kind === 'device-key.ended' && event.body.keyId === keyId,
  );
  if (ended) return null;
  for (const { event, broken } of keys) {
    if (broken === null && event.kind === 'device-key.enrolled' && event.body.keyId === keyId) {
      return fromBase64Url(event.body.publicKey.x);
    }
  }
  return null;
}

/** Whether the key has been ended, as a transaction sees it. */
export async function isKeyEnded(
  write: StoreWrite,
  { org, person }: Whose,
  keyId: string,
): Promise<boolean> {
  const ended = await eventsAt(write, { org, about: person, kinds: ['device-key.ended'] });
  return ended.some(({ body }) => body.keyId === keyId);
}
