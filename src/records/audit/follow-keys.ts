import { type Bytes, checkCosign, checkSignoff, fromBase64Url } from '../check/index.ts';
import type { EventOf, LogEvent } from '../events/index.ts';

type DeviceKey = { readonly person: string; readonly org: string; readonly publicKey: Bytes };

/** Device keys in force at a point of the log: enrolled and not ended. */
export type KeyBook = Map<string, DeviceKey>;

function enrol({ body, by, org }: EventOf<'device-key.enrolled'>, keys: KeyBook): string | null {
  if (keys.has(body.keyId)) return 'It enrols a device key that is enrolled already.';
  const publicKey = fromBase64Url(body.publicKey.x);
  if (publicKey === null) return 'It enrols a key that is not one.';
  keys.set(body.keyId, { person: by, org, publicKey });
  return null;
}

async function checkSigned(
  event: EventOf<'practical.signed'> | EventOf<'practical.cosigned'>,
  keys: KeyBook,
): Promise<string | null> {
  const key = keys.get(event.body.keyId);
  if (key === undefined)
    return 'It is signed with a device key that was not enrolled, or had ended.';
  if (key.person !== event.by || key.org !== event.org)
    return "It is signed with somebody else's device key.";
  const checked =
    event.kind === 'practical.signed'
      ? await checkSignoff(event.body, key.publicKey)
      : await checkCosign(event.body, key.publicKey);
  return checked.ok ? null : checked.sentence;
}

/**
 * Follows device keys through the log in order and checks each sign-off against them.
 * @returns what is wrong with this event, or null
 */
export async function followKeys(event: LogEvent, keys: KeyBook): Promise<string | null> {
  if (event.kind === 'device-key.enrolled') return enrol(event, keys);
  if (event.kind === 'device-key.ended') {
    return keys.delete(event.body.keyId) ? null : 'It ends a device key that is not enrolled.';
  }
  return event.kind === 'practical.signed' || event.kind === 'practical.cosigned'
    ? checkSigned(event, keys)
    : null;
}
