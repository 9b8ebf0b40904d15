import { getMigrations } from 'better-auth/db/migration';
import { Kysely, sql } from 'kysely';
import { Migrator } from 'kysely/migration';
import { afterEach, beforeEach, describe, expect, it } from 'vitest';
import { authOptions } from '../../src/accounts/index.ts';
import { openStore } from '../../src/store/index.ts';
import { MIGRATIONS } from '../../src/store/migrations/index.ts';
import { openSqliteFile, sqliteDialect } from '../../src/store/sqlite-dialect.ts';
import { makeTempStore, type TempFileStore } from './temp-store.ts';

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

  it('do nothing to a store that has them', async () => {
    const again = await openStore({ file: temp.file }, temp.siteKey);
    const { rows } = await sql<{ name: string }>`select name from kysely_migration`.execute(
      again.db,
    );
    await again.close();
    expect(rows.map((row) => row.name)).toEqual(Object.keys(MIGRATIONS));
  });

  it('leave nothing behind when one of them fails half-way', async () => {
    const db = new Kysely<unknown>({ dialect: sqliteDialect(openSqliteFile(`${temp.file}.two`)) });
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
  });
});
