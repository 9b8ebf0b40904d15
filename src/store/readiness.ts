import { sql } from 'kysely';
import { type Bytes, openCheckpoint } from '../records/index.ts';
import { asSite } from './asking.ts';
import { MIGRATIONS } from './migrations/index.ts';
import { type Connections, countConnections } from './postgres-dialect.ts';
import type { Store } from './store.ts';

/** Thrown to undo the try. */
const UNDO = new Error('undone on purpose');

/**
 * Whether the store takes writes: the head of the log is written once more as it is, and that is undone, so
 * nothing is ever changed.
 */
export async function isWritable({ db }: Store): Promise<boolean> {
  try {
    await db.transaction().execute(async (trx) => {
      await trx
        .updateTable('log_head')
        .set((head) => ({ size: head.ref('size') }))
        .execute();
      throw UNDO;
    });
    return false;
  } catch (error) {
    return error === UNDO;
  }
}

/** Whether the newest checkpoint can be read and is one this key signed. */
export async function hasHead(store: Store, publicKey: Bytes): Promise<boolean> {
  return (await openCheckpoint(await store.checkpoint(), [publicKey])).ok;
}

/** Whether the tables are those of this version of the site: no change missing, none from a later one. */
export async function hasCurrentTables({ db }: Store): Promise<boolean> {
  const { rows } = await sql<{ name: string }>`select name from kysely_migration`.execute(db);
  const made = rows.map(({ name }) => name).sort();
  return made.join() === Object.keys(MIGRATIONS).sort().join();
}

/** Numbers about the store, for whoever watches over it. */
export async function countStore({ db }: Store): Promise<{
  readonly events: number;
  readonly openSittings: number;
  /** null where the engine has one connection for all */
  readonly connections: Connections | null;
}> {
  const head = await db.selectFrom('log_head').select('size').executeTakeFirst();
  const open = await asSite(() =>
    db
      .selectFrom('open_sitting')
      .select((row) => row.fn.countAll<number | string>().as('count'))
      .executeTakeFirst(),
  );
  return {
    events: Number(head?.size ?? 0),
    openSittings: Number(open?.count ?? 0),
    connections: countConnections(),
  };
}
