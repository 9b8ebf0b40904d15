import english from '../../../../content/messages/en/signing.json' with { type: 'json' };
import { generateSigningKey } from '../../../records/check/index.ts';
import { sayFrom } from '../../../words/spoken.ts';
import { openDeviceStore } from './device-store.ts';
import type { DeviceKey, DeviceLabel } from './kept.ts';

const say = sayFrom('signing', english);

/** Why this browser cannot sign, as one sentence, or null when it can. */
export async function whyNoSigning(): Promise<string | null> {
  if (!window.isSecureContext || globalThis.crypto?.subtle === undefined) {
    return say('no-crypto');
  }
  if (globalThis.indexedDB === undefined) {
    return say('no-store');
  }
  try {
    await crypto.subtle.generateKey('Ed25519', false, ['sign', 'verify']);
    return null;
  } catch {
    return say('no-ed25519');
  }
}

/** This person's key on this device, made on first use. It never leaves the device. */
export async function deviceKeyOf(person: string): Promise<DeviceKey> {
  const db = await openDeviceStore();
  const kept = await db.get('keys', person);
  if (kept !== undefined) return kept;
  const made = await generateSigningKey({ keep: 'on-device' });
  const key: DeviceKey = { ...made, person, enrolled: false };
  // another tab may have been quicker: the first key kept is the key
  const change = db.transaction('keys', 'readwrite', { durability: 'strict' });
  const first = await change.store.get(person);
  if (first === undefined) await change.store.put(key);
  await change.done;
  return first ?? key;
}

export async function markEnrolled(key: DeviceKey, enrolled: 'enrolled' | 'not'): Promise<void> {
  await (await openDeviceStore()).put('keys', { ...key, enrolled: enrolled === 'enrolled' });
}

/** A key the site no longer takes is put aside, and the next signature makes a fresh one. */
export async function dropKey(key: DeviceKey): Promise<void> {
  await (await openDeviceStore()).delete('keys', key.person);
}

/** The sort of device this looks like: a first guess, for the trainer to correct. */
export function guessDevice(): DeviceLabel {
  const touch = window.matchMedia('(pointer: coarse)').matches;
  const short = Math.min(window.screen.width, window.screen.height);
  if (touch) return short < 600 ? 'phone' : 'tablet';
  return 'laptop';
}

/** Id of this person's key on this device, or null before there is one. Makes none. */
export async function keptKeyId(person: string): Promise<string | null> {
  return (await (await openDeviceStore()).get('keys', person))?.keyId ?? null;
}

/** Whether this device has no key of this person that the site knows. */
export async function isDeviceNew(person: string): Promise<boolean> {
  const kept = await (await openDeviceStore()).get('keys', person);
  return kept?.enrolled !== true;
}
