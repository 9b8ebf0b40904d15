import type { IDBPDatabase, IDBPTransaction, StoreNames } from 'idb';
import type { Schema } from './device-store.ts';
import type { SignedRequest, Unsent } from './kept.ts';

/** A signed record as the first form of the store kept it. */
type FirstUnsent = Pick<
  Unsent,
  'signoff' | 'sheetKey' | 'title' | 'path' | 'trainer' | 'signedAt' | 'statementHash'
> & { readonly request: SignedRequest };

/** A record of the first form in the present one. It had no photos, and its ticket was never kept. */
export const asUnsent = (first: FirstUnsent, order: number): Unsent => ({
  ...first,
  order,
  ticket: null,
  photos: [],
  logged: null,
  drafts: [],
});

/** Moves what the first form of the store held into this one. Keys, sheets and checkpoints stay where they lie. */
export async function bringFromFirst(
  db: IDBPDatabase<Schema>,
  change: IDBPTransaction<Schema, StoreNames<Schema>[], 'versionchange'>,
): Promise<void> {
  // the first form called its outbox `unsent`: a name the present one does not know
  const old = db as unknown as IDBPDatabase;
  const transaction = change as unknown as IDBPTransaction<unknown, string[], 'versionchange'>;
  const records = (await transaction.objectStore('unsent').getAll()) as FirstUnsent[];
  const oldestFirst = records.sort((a, b) => a.signedAt.localeCompare(b.signedAt, 'en'));
  for (const [index, first] of oldestFirst.entries()) {
    await change.objectStore('outbox').put(asUnsent(first, index + 1));
  }
  old.deleteObjectStore('unsent');
}
