import english from '../../../content/messages/en/signing.json' with { type: 'json' };
import type { OrganisationRules, RegisteredBench, Unit } from '../../competence/index.ts';
import type { LimitSet } from '../../limits/index.ts';
import { sayFrom } from '../../words/spoken.ts';
import { getJson, type Reply } from './post-json.ts';
import { openDeviceStore, STRICT } from './store/device-store.ts';
import { followLog } from './store/follow-log.ts';
import { markTrainer } from './store/marks.ts';
import { dropNote, readNote, writeNote } from './store/notes.ts';

const say = sayFrom('signing', english);

type Somebody = { readonly person: string; readonly name: string; readonly nameHash: string };

/** One practical of the log, to show what there is. */
export type KitSigned = {
  readonly person: string;
  readonly bench: string;
  readonly work: string;
  readonly unit: string;
  readonly observedAt: string;
  readonly decision: 'signed-off' | 'not-yet';
  readonly trainer: string;
};

/** A bench nobody is to use for now, and why, as it was written. */
export type KitOut = { readonly bench: string; readonly since: string; readonly reason: string };

/** Everything a trainer needs of the site to watch, measure, decide and sign without a network. */
export type Kit = {
  readonly schema: 'kit/1';
  /** by the clock of the site */
  readonly madeAt: string;
  readonly org: { readonly id: string; readonly name: string };
  readonly trainer: Somebody & {
    readonly email: string;
    /** when the password was last set */
    readonly passwordSetAt: string;
    /** whether a passkey may stand in for the password where the site is reached */
    readonly passkeys?: boolean;
  };
  readonly people: readonly (Somebody & { readonly role: 'trainee' | 'trainer' | 'employer' })[];
  readonly benches: readonly RegisteredBench[];
  readonly units: readonly Unit[];
  /** limit sets of the benches, and the one of common practice */
  readonly sets: readonly LimitSet[];
  readonly rules: OrganisationRules;
  readonly signed: readonly KitSigned[];
  /** benches out of service when the kit was made; a kit from before this has none */
  readonly out?: readonly KitOut[];
};

/** Whether the reply is ours: a wireless net at its door answers everything with a page of its own. */
const isKit = (value: unknown): value is Kit =>
  typeof value === 'object' && value !== null && (value as Kit).schema === 'kit/1';

/** Keeps a kit for its trainer, who is from here on the one this device works for. */
export async function keepKit(kit: Kit): Promise<void> {
  const { person, passwordSetAt } = kit.trainer;
  const db = await openDeviceStore();
  const change = db.transaction(['kits', 'verifiers', 'notes'], 'readwrite', STRICT);
  await change.objectStore('kits').put({ person, kit, keptAt: new Date().toISOString() });
  await change.objectStore('notes').put({ name: 'trainer', person });
  const verifier = await change.objectStore('verifiers').get(person);
  // another password since: the old one must not sign here any more
  if (verifier !== undefined && verifier.passwordSetAt !== passwordSetAt) {
    await change.objectStore('verifiers').delete(person);
  }
  await change.done;
  markTrainer();
}

/** The kit of the trainer this device works for, or null. */
export async function keptKit(): Promise<Kit | null> {
  const current = await readNote('trainer');
  if (current === undefined) return null;
  return (await (await openDeviceStore()).get('kits', current.person))?.kit ?? null;
}

/** Fetches the kit of whoever is signed in and keeps it; measures this clock against the site's on the way. */
export async function fetchKit(): Promise<Reply<Kit>> {
  const asked = Date.now();
  const reply = await getJson<unknown>('/api/kit');
  const answered = Date.now();
  if (!reply.ok) {
    // somebody who is no trainer is signed in: the device works for no trainer
    if (reply.status === 403) await dropNote('trainer').catch(() => undefined);
    return reply;
  }
  const kit = reply.value;
  if (!isKit(kit)) return { ok: false, status: 0, path: '', message: say('not-reached') };
  try {
    await keepKit(kit);
    const ahead = Math.round(((asked + answered) / 2 - Date.parse(kit.madeAt)) / 1000);
    await writeNote({ name: 'clock', ahead, at: new Date(answered).toISOString() });
  } catch (error) {
    return { ok: false, status: 0, path: '', message: sayNotKept(error) };
  }
  // behind the kit, which must not wait for it
  void followLog().catch(() => undefined);
  return { ok: true, value: kit };
}

/** Why something could not be kept on this device. */
export const sayNotKept = (error: unknown): string =>
  error instanceof DOMException && error.name === 'QuotaExceededError'
    ? say('no-room')
    : say('not-kept', { reason: error instanceof Error ? error.message : String(error) });
