import { createHash } from 'node:crypto';
import { join } from 'node:path';
import { getMigrations } from 'better-auth/db/migration';
import { Kysely, sql } from 'kysely';
import { Migrator } from 'kysely/migration';
import { afterEach, beforeEach, describe, expect, it } from 'vitest';
import { authOptions } from '../../src/accounts/index.ts';
import { MIGRATIONS } from '../../src/store/migrations/index.ts';
import { postgresDialect } from '../../src/store/postgres-dialect.ts';
import { openSqliteFile, sqliteDialect } from '../../src/store/sqlite-dialect.ts';
import { sharedDatabase } from '../helpers/postgres.ts';
import { ENGINES, makeTempStore, SLOW, type TempFileStore, type TempStore } from './temp-store.ts';

/** Worked out with the code as it was the day before: 7 migrations, SHA-256 of the JSON of sqlite_schema. */
const LAST_BEFORE_POSTGRES = '0007-calendar-choice';
const SCHEMA_BEFORE_POSTGRES = {
  count: 55,
  digest: '483617e6492f7ac3a0b9d6cfa7f4aff03cbd92541c554dfba0f30d632090c481',
};

let temp: TempFileStore;
beforeEach(async () => {
  temp = await makeTempStore();
});
afterEach(() => temp.remove());

describe('the migrations', () => {
  // Checked by the library itself: better-auth 1.7.25, getMigrations
  it('make the account tables better-auth asks for: it finds nothing to add', async () => {
    const options = authOptions({
      db: temp.store.db,
      secret: temp.siteKey.deriveSecret('sessions'),
      address: new URL('http://localhost'),
    });
    const wanted = await getMigrations(options);
    expect(wanted.toBeCreated).toEqual([]);
    expect(wanted.toBeAdded).toEqual([]);
    expect(wanted.toBeAddedIndexes).toEqual([]);
    expect(wanted.unsafeChanges).toEqual([]);
  });

  it('give a SQLite file the tables it had before PostgreSQL came beside it, to the letter', async () => {
    const file = `${temp.file}.released`;
    const db = new Kysely<never>({ dialect: sqliteDialect(openSqliteFile(file)) });
    for (const [name, migration] of Object.entries(MIGRATIONS)) {
      if (name <= LAST_BEFORE_POSTGRES) await db.transaction().execute((trx) => migration.up(trx));
    }
    await db.destroy();
    const raw = openSqliteFile(file);
    const rows = raw
      .prepare('select type, name, tbl_name, sql from sqlite_schema order by rowid')
      .all();
    raw.close();
    const digest = createHash('sha256').update(JSON.stringify(rows)).digest('hex');
    expect({ count: rows.length, digest }).toEqual(SCHEMA_BEFORE_POSTGRES);
  });
});

describe.each(ENGINES)('the migrations on %s', (_name, make) => {
  let on: TempStore;
  beforeEach(async () => {
    on = await make();
  }, SLOW);
  afterEach(() => on.remove());

  it('do nothing to a store that has them', async () => {
    const again = await on.reopen();
    const { rows } = await sql<{ name: string }>`select name from kysely_migration`.execute(
      again.db,
    );
    await again.close();
    expect(rows.map((row) => row.name)).toEqual(Object.keys(MIGRATIONS));
  });

  it('leave nothing behind when one of them fails half-way', async () => {
    const empty = 'url' in on.place ? await sharedDatabase() : null;
    const dialect =
      empty === null
        ? sqliteDialect(openSqliteFile(join(on.folder, 'two.sqlite')))
        : postgresDialect(empty.url);
    const db = new Kysely<unknown>({ dialect });
    const migrations = {
      ...MIGRATIONS,
      '9999-fails': {
        up: async (inside: Kysely<unknown>) => {
          await inside.schema.createTable('half').addColumn('id', 'text').execute();
          throw new Error('power cut');
        },
      },
    };
    const migrator = new Migrator({ db, provider: { getMigrations: async () => migrations } });
    const { error } = await migrator.migrateToLatest();
    expect(error).toEqual(new Error('power cut'));
    const tables = await db.introspection.getTables();
    expect(tables.map((table) => table.name)).toEqual([]);
    await db.destroy();
    await empty?.remove();
  });
});
