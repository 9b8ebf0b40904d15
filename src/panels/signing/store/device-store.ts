import { type DBSchema, type IDBPDatabase, openDB } from 'idb';
import type { Kit } from '../kit.ts';
import { bringFromFirst } from './from-first.ts';
import type {
  DeviceKey,
  KeptPhoto,
  KeptSheet,
  Note,
  RefusedRecord,
  Unsent,
  Verifier,
} from './kept.ts';

export interface Schema extends DBSchema {
  /** one key to a person */
  keys: { key: string; value: DeviceKey };
  /** sheets as typed */
  sheets: { key: string; value: KeptSheet };
  /** signed records on their way to the site */
  outbox: { key: string; value: Unsent };
  /** signed records the site would not take: kept, shown, never thrown away by themselves */
  refused: { key: string; value: RefusedRecord };
  photos: { key: string; value: KeptPhoto };
  /** what a trainer needs without a network, one to a trainer */
  kits: { key: string; value: { person: string; kit: Kit; keptAt: string } };
  /** what tells a trainer's password from another one without a network */
  verifiers: { key: string; value: Verifier };
  /** newest signed head of the log seen by this device, by the log's origin */
  checkpoints: { key: string; value: { origin: string; note: string; seenAt: string } };
  /** small facts about this device */
  notes: { key: string; value: Note };
}

export type DeviceStore = IDBPDatabase<Schema>;

export const STORE_NAME = 'signed-to-saw';
const VERSION = 2;

let opened: Promise<DeviceStore> | null = null;

/** This browser's own store. Opened once; one version per form of it. */
export function openDeviceStore(): Promise<DeviceStore> {
  if (opened !== null) return opened;
  const opening = openDB<Schema>(STORE_NAME, VERSION, {
    async upgrade(db, from, _to, change) {
      if (from < 1) {
        db.createObjectStore('keys', { keyPath: 'person' });
        db.createObjectStore('sheets', { keyPath: 'sheetKey' });
        db.createObjectStore('checkpoints', { keyPath: 'origin' });
      }
      if (from < 2) {
        db.createObjectStore('outbox', { keyPath: 'signoff' });
        db.createObjectStore('refused', { keyPath: 'signoff' });
        db.createObjectStore('photos', { keyPath: 'digest' });
        db.createObjectStore('kits', { keyPath: 'person' });
        db.createObjectStore('verifiers', { keyPath: 'person' });
        db.createObjectStore('notes', { keyPath: 'name' });
        if (from === 1) await bringFromFirst(db, change);
      }
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
  opened = opening;
  opening.then(
    // taken away under our hands, by the browser or by its owner
    (db) => db.addEventListener('close', forget),
    forget,
  );
  return opening;
}

const forget = (): void => {
  opened = null;
};

/** Asks the browser not to throw the store away when room is short. Refusal changes nothing here. */
export const askToKeepStore = async (): Promise<void> => {
  await navigator.storage?.persist?.().catch(() => false);
};

/** On the disk before it counts as written. */
export const STRICT = { durability: 'strict' } as const;
