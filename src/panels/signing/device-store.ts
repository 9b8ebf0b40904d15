import { type DBSchema, type IDBPDatabase, openDB } from 'idb';
import type { SigningKey } from '../../records/check/index.ts';

/** A signed record on its way to the site: kept until the site says it has it. */
export type Unsent = {
  /** id of the sign-off and of its event */
  readonly signoff: string;
  /** which sheet it came from */
  readonly sheetKey: string;
  readonly title: string;
  /** where the sheet is opened, to send it from there */
  readonly path: string;
  readonly trainer: string;
  readonly signedAt: string;
  /** body of the request, the one-time ticket apart */
  readonly request: unknown;
  readonly statementHash: string;
};

export type DeviceLabel = 'tablet' | 'phone' | 'laptop' | 'desktop' | 'other';

/** This device's key of one person. The private half cannot be read out, not even by this page. */
export type DeviceKey = SigningKey & {
  readonly person: string;
  /** whether the site has entered it in the log */
  readonly enrolled: boolean;
};

export type KeptSheet<Sheet = unknown> = {
  readonly sheetKey: string;
  /** whose sheet it is and what for, to find it again by */
  readonly title: string;
  /** where it is opened */
  readonly path: string;
  readonly savedAt: string;
  readonly sheet: Sheet;
};

interface Schema extends DBSchema {
  /** one key to a person */
  keys: { key: string; value: DeviceKey };
  /** sheets as typed */
  sheets: { key: string; value: KeptSheet };
  unsent: { key: string; value: Unsent };
  /** newest signed head of the log seen by this device, by the log's origin */
  checkpoints: { key: string; value: { origin: string; note: string; seenAt: string } };
}

export type DeviceStore = IDBPDatabase<Schema>;

let opened: Promise<DeviceStore> | null = null;

/** This browser's own store. Opened once; one version per form of it. */
export function openDeviceStore(): Promise<DeviceStore> {
  opened ??= openDB<Schema>('signed-to-saw', 1, {
    upgrade(db) {
      db.createObjectStore('keys', { keyPath: 'person' });
      db.createObjectStore('sheets', { keyPath: 'sheetKey' });
      db.createObjectStore('unsent', { keyPath: 'signoff' });
      db.createObjectStore('checkpoints', { keyPath: 'origin' });
    },
    // another tab wants a newer form: let go, this page opens it again when it next needs it
    blocking: (_current, _wanted, event) => {
      (event.target as IDBDatabase).close();
      opened = null;
    },
    terminated: () => {
      opened = null;
    },
  });
  return opened;
}

/** Asks the browser not to throw the store away when room is short. Refusal changes nothing here. */
export const askToKeepStore = async (): Promise<void> => {
  await navigator.storage?.persist?.().catch(() => false);
};

const STRICT = { durability: 'strict' } as const;

/** Keeps a sheet as typed; resolves when it is on the disk. */
export async function keepSheet(kept: KeptSheet): Promise<void> {
  const db = await openDeviceStore();
  const change = db.transaction('sheets', 'readwrite', STRICT);
  await Promise.all([change.store.put(kept), change.done]);
}

export const keptSheet = async (sheetKey: string): Promise<KeptSheet | undefined> =>
  (await openDeviceStore()).get('sheets', sheetKey);

/** Everything this trainer left on this device: sheets as typed, and signed records not yet sent. */
export async function leftHere(
  trainer: string,
): Promise<{ readonly sheets: readonly KeptSheet[]; readonly unsent: readonly Unsent[] }> {
  const db = await openDeviceStore();
  const [sheets, unsent] = await Promise.all([db.getAll('sheets'), db.getAll('unsent')]);
  return {
    sheets: sheets.filter((one) => one.sheetKey.startsWith(`${trainer}/`)),
    unsent: unsent.filter((one) => one.trainer === trainer),
  };
}

export async function dropSheet(sheetKey: string): Promise<void> {
  await (await openDeviceStore()).delete('sheets', sheetKey);
}

/** Keeps a signed record; resolves when it is on the disk, before anything is sent. */
export async function keepUnsent(unsent: Unsent): Promise<void> {
  const db = await openDeviceStore();
  const change = db.transaction('unsent', 'readwrite', STRICT);
  await Promise.all([change.store.put(unsent), change.done]);
}

/** What this trainer signed here for this sheet and the site has not confirmed yet. */
export async function unsentFor(trainer: string, sheetKey: string): Promise<Unsent | undefined> {
  const all = await (await openDeviceStore()).getAll('unsent');
  return all.find((one) => one.trainer === trainer && one.sheetKey === sheetKey);
}

/** Lets go of a signed record and its sheet in one step, once the site has logged it or refused it for good. */
export async function settleUnsent(unsent: Unsent, keep: 'sheet' | 'nothing'): Promise<void> {
  const db = await openDeviceStore();
  const change = db.transaction(['unsent', 'sheets'], 'readwrite', STRICT);
  await Promise.all([
    change.objectStore('unsent').delete(unsent.signoff),
    keep === 'nothing' ? change.objectStore('sheets').delete(unsent.sheetKey) : undefined,
    change.done,
  ]);
}

/** Keeps a copy of the log's newest head: a log rewritten later would no longer fit it. */
export async function keepCheckpoint(note: string, seenAt: string): Promise<void> {
  const origin = note.slice(0, Math.max(0, note.indexOf('\n')));
  const db = await openDeviceStore();
  await db.put('checkpoints', { origin, note, seenAt });
}
