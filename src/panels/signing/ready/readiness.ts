import { here } from '../../../words/spoken.ts';
import { keptKit } from '../kit.ts';
import { openDeviceStore } from '../store/device-store.ts';
import { readNote } from '../store/notes.ts';
import { unsentOf } from '../store/outbox.ts';
import { isFresh, keptVerifier } from './verifier.ts';

/** How far this device is ready to be used at the machine without a network. */
export type Readiness = {
  readonly kit: 'kept' | 'none';
  /** when the kit was made, by the clock of the site */
  readonly kitAt: string | null;
  /** whether the sheet itself opens without a network */
  readonly page: 'kept' | 'none';
  readonly key: 'none' | 'made' | 'enrolled';
  /** whether a password can be checked here */
  readonly password: 'kept' | 'none';
  readonly store: 'persistent' | 'may-be-cleared' | 'refused';
  /** this clock against the site's when they last spoke; null before they did */
  readonly clockAheadSeconds: number | null;
  /** signed records of this trainer that wait */
  readonly unsent: number;
};

const NOTHING: Readiness = {
  kit: 'none',
  kitAt: null,
  page: 'none',
  key: 'none',
  password: 'none',
  store: 'refused',
  clockAheadSeconds: null,
  unsent: 0,
};

const isPersistent = async (): Promise<boolean> =>
  (await navigator.storage?.persisted?.().catch(() => false)) ?? false;

/** Whether the worker holds the page of the sheet in the language of this one. */
async function isPageKept(): Promise<boolean> {
  if (globalThis.caches === undefined) return false;
  return (await caches.match(here('/practical/sheet'))) !== undefined;
}

/** What the trainer this device works for has on it. Never throws: a store that cannot be opened is said so. */
export async function readinessOf(): Promise<Readiness> {
  try {
    const db = await openDeviceStore();
    const clock = await readNote('clock');
    const kit = await keptKit();
    const store = (await isPersistent()) ? 'persistent' : 'may-be-cleared';
    const clockAheadSeconds = clock?.ahead ?? null;
    const page = (await isPageKept().catch(() => false)) ? 'kept' : 'none';
    if (kit === null) return { ...NOTHING, page, store, clockAheadSeconds };
    const { person } = kit.trainer;
    const key = await db.get('keys', person);
    const verifier = await keptVerifier(person);
    const isKept = verifier !== undefined && isFresh(verifier, Date.now());
    return {
      kit: 'kept',
      kitAt: kit.madeAt,
      page,
      key: key === undefined ? 'none' : key.enrolled ? 'enrolled' : 'made',
      password: isKept ? 'kept' : 'none',
      store,
      clockAheadSeconds,
      unsent: (await unsentOf(person)).length,
    };
  } catch {
    return NOTHING;
  }
}
