import { openDeviceStore, STRICT } from '../store/device-store.ts';
import type { Verifier } from '../store/kept.ts';

/*
 * The password check of a device without a network. What it is worth, plainly: it tells the trainer from
 * somebody who picks the tablet up. It does not hold against somebody who takes the browser's files away and
 * tries passwords on machines of their own: the rounds make each try slow, and nothing more. Waiting after
 * wrong tries counts by the clock of the device, which its owner can turn. So a record says that it was confirmed on
 * the device, the site takes it from an enrolled key only, and a lost device's key is ended on the site.
 */

/** Rounds of PBKDF2 with SHA-256, as advised by OWASP for 2023. */
const ROUNDS = 600_000;
/** A verifier older than this is made again on the site, ms. */
const LASTS = 30 * 86_400_000;
/** Wrong tries before there is any wait; then 5 s, twice as long each time, to an hour. */
const FREE_TRIES = 3;
const FIRST_WAIT = 5_000;
const LONGEST_WAIT = 3_600_000;

/** ms to wait after so many wrong tries in a row. */
export const waitAfterWrong = (failures: number): number =>
  failures < FREE_TRIES ? 0 : Math.min(LONGEST_WAIT, FIRST_WAIT * 2 ** (failures - FREE_TRIES));

/** Whether a verifier still counts. One from the future was made by a clock that was ahead: it does not. */
export const isFresh = ({ madeAt }: Pick<Verifier, 'madeAt'>, now: number): boolean => {
  const age = now - Date.parse(madeAt);
  return age >= -86_400_000 && age <= LASTS;
};

async function derive(password: string, salt: Uint8Array, rounds: number): Promise<Uint8Array> {
  const bytes = new TextEncoder().encode(password.normalize('NFC'));
  const key = await crypto.subtle.importKey('raw', bytes, 'PBKDF2', false, ['deriveBits']);
  const how = { name: 'PBKDF2', hash: 'SHA-256', salt: salt.slice(), iterations: rounds };
  return new Uint8Array(await crypto.subtle.deriveBits(how, key, 256));
}

/** Keeps a verifier of a password the site has just found right. */
export async function keepVerifier(
  person: string,
  password: string,
  passwordSetAt: string,
): Promise<void> {
  const salt = crypto.getRandomValues(new Uint8Array(16));
  const hash = await derive(password, salt, ROUNDS);
  const verifier: Verifier = {
    person,
    salt,
    rounds: ROUNDS,
    hash,
    madeAt: new Date().toISOString(),
    passwordSetAt,
    failures: 0,
    blockedUntil: 0,
  };
  const db = await openDeviceStore();
  const change = db.transaction('verifiers', 'readwrite', STRICT);
  await Promise.all([change.store.put(verifier), change.done]);
}

export const keptVerifier = async (person: string): Promise<Verifier | undefined> =>
  (await openDeviceStore()).get('verifiers', person);

export type Checked =
  | { readonly state: 'right' }
  | { readonly state: 'wrong' }
  /** no verifier, or one too old */
  | { readonly state: 'none' }
  /** too many wrong tries: seconds still to wait */
  | { readonly state: 'wait'; readonly seconds: number };

const isSame = (a: Uint8Array, b: Uint8Array): boolean =>
  a.length === b.length &&
  a.reduce((diff, byte, index) => diff | (byte ^ (b[index] ?? 0)), 0) === 0;

/** Counts a try as wrong before it is made, so that closing the page in the middle gains nothing. */
async function takeTry(person: string, now: number): Promise<Verifier | Checked> {
  const change = (await openDeviceStore()).transaction('verifiers', 'readwrite', STRICT);
  const verifier = await change.store.get(person);
  if (verifier === undefined || !isFresh(verifier, now)) return { state: 'none' };
  const wait = Math.min(verifier.blockedUntil - now, LONGEST_WAIT);
  if (wait > 0) return { state: 'wait', seconds: Math.ceil(wait / 1000) };
  const failures = verifier.failures + 1;
  const blockedUntil = now + waitAfterWrong(failures);
  await change.store.put({ ...verifier, failures, blockedUntil });
  await change.done;
  return verifier;
}

/** Whether this is the password of the trainer, as far as this device can tell. */
export async function checkOnDevice(person: string, password: string): Promise<Checked> {
  const taken = await takeTry(person, Date.now());
  if ('state' in taken) return taken;
  const hash = await derive(password, taken.salt, taken.rounds);
  if (!isSame(hash, taken.hash)) return { state: 'wrong' };
  const change = (await openDeviceStore()).transaction('verifiers', 'readwrite', STRICT);
  const now = await change.store.get(person);
  if (now !== undefined) await change.store.put({ ...now, failures: 0, blockedUntil: 0 });
  await change.done;
  return { state: 'right' };
}
