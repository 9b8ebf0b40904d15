import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { DatabaseSync } from 'node:sqlite';
import { Client } from 'pg';
import { type DraftOf, newId } from '../../src/records/index.ts';
import {
  openSiteKey,
  openStore,
  type SiteKey,
  type Store,
  type StorePlace,
} from '../../src/store/index.ts';
import { openSqliteFile } from '../../src/store/sqlite-dialect.ts';
import { hasPostgres, NO_POSTGRES, sharedDatabase } from '../helpers/postgres.ts';

export type Value = string | number | null;
/** SQL with `?` for each value. */
export type Statement = readonly [string, ...Value[]];

export type TempStore = {
  readonly folder: string;
  readonly place: StorePlace;
  readonly store: Store;
  readonly siteKey: SiteKey;
  /** Another connection to the same store, with rights to everything: what a tamperer has. */
  readonly runRaw: (...statement: Statement) => Promise<Record<string, unknown>[]>;
  readonly reopen: () => Promise<Store>;
  readonly remove: () => Promise<void>;
};

/** The same on SQLite, whose file can be opened. */
export type TempFileStore = TempStore & {
  readonly file: string;
  readonly openRaw: () => DatabaseSync;
};

/** A store on a real SQLite file in a folder of its own. */
export async function makeTempStore(): Promise<TempFileStore> {
  const folder = mkdtempSync(join(tmpdir(), 'store-test-'));
  const file = join(folder, 'store.sqlite');
  const siteKey = await openSiteKey(join(folder, 'site-key.json'), file);
  const store = await openStore({ file }, siteKey);
  return {
    folder,
    file,
    place: { file },
    store,
    siteKey,
    openRaw: () => new DatabaseSync(file),
    async runRaw(sql, ...values) {
      const database = openSqliteFile(file);
      try {
        return database.prepare(sql).all(...values);
      } finally {
        database.close();
      }
    },
    reopen: () => openStore({ file }, siteKey),
    remove: async () => {
      await store.close().catch(() => undefined);
      rmSync(folder, { recursive: true, force: true });
    },
  };
}

async function connect(url: string): Promise<Client> {
  const client = new Client({ connectionString: url });
  await client.connect();
  return client;
}

/** A store in a PostgreSQL database of its own. */
export async function makePostgresStore(): Promise<TempStore> {
  const folder = mkdtempSync(join(tmpdir(), 'store-test-'));
  const siteKey = await openSiteKey(join(folder, 'site-key.json'), false);
  const { url, remove } = await sharedDatabase();
  const store = await openStore({ url }, siteKey);
  let raw: Promise<Client> | undefined;
  return {
    folder,
    place: { url },
    store,
    siteKey,
    async runRaw(sql, ...values) {
      raw ??= connect(url);
      const client = await raw;
      let place = 0;
      return (
        await client.query(
          sql.replaceAll('?', () => `$${++place}`),
          values,
        )
      ).rows;
    },
    reopen: () => openStore({ url }, siteKey),
    remove: async () => {
      await store.close().catch(() => undefined);
      await (await raw)?.end();
      await remove();
      rmSync(folder, { recursive: true, force: true });
    },
  };
}

/** The first store on PostgreSQL may have to wait for the database server to be made, ms. */
export const SLOW = 60_000;

/** The engines every test of the store runs on. */
export const ENGINES: [string, () => Promise<TempStore>][] = [['SQLite', makeTempStore]];
if (hasPostgres()) ENGINES.push(['PostgreSQL', makePostgresStore]);
else console.warn(NO_POSTGRES);

/** On SQLite, and on PostgreSQL in the second run of the files that `tests/vitest.config.ts` runs on both. */
export const makeStoreHere = (): Promise<TempStore> =>
  process.env['TEST_STORE_ON'] === 'postgresql' ? makePostgresStore() : makeTempStore();

/** Changes rows as somebody with rights to everything can: the triggers are dropped first. */
export async function tamper(temp: TempStore, ...statements: readonly Statement[]): Promise<void> {
  const on = (table: string) => ('url' in temp.place ? ` on ${table}` : '');
  for (const table of ['event', 'tree_node']) {
    for (const change of ['update', 'delete']) {
      await temp.runRaw(`drop trigger if exists ${table}_refuses_${change}${on(table)}`);
    }
  }
  for (const statement of statements) await temp.runRaw(...statement);
}

export const ORG = 'org-1';

/** A small event: an invitation made by `by`. */
export function draftInvitation(
  over: Partial<DraftOf<'invitation.made'>> = {},
): DraftOf<'invitation.made'> {
  return {
    id: newId(),
    kind: 'invitation.made',
    version: 1,
    org: ORG,
    at: '2026-03-03T09:30:00.000Z',
    by: 'person-1',
    about: null,
    body: { invitation: newId(), role: 'trainee' },
    ...over,
  };
}
