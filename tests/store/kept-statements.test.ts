import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { Kysely, sql } from 'kysely';
import { afterEach, beforeEach, describe, expect, it } from 'vitest';
import { openSqliteFile, sqliteDialect } from '../../src/store/sqlite-dialect.ts';

/** Statements are prepared once and given again: what they answer must be what a fresh one answers. */
type Tables = { stock: { id: number; wood: string } };
let folder: string;
let db: Kysely<Tables>;
beforeEach(async () => {
  folder = mkdtempSync(join(tmpdir(), 'kept-statements-'));
  db = new Kysely<Tables>({ dialect: sqliteDialect(openSqliteFile(join(folder, 'store.sqlite'))) });
  await sql`create table stock (id integer primary key, wood text not null)`.execute(db);
});
afterEach(async () => {
  await db.destroy();
  rmSync(folder, { recursive: true });
});

const add = (id: number, wood: string) => db.insertInto('stock').values({ id, wood }).execute();
const all = () => db.selectFrom('stock').selectAll().orderBy('id').execute();

describe('a statement that is asked for again', () => {
  it('answers with the values of this time', async () => {
    await add(1, 'oak');
    await add(2, 'ash');
    const woodOf = (id: number) =>
      db.selectFrom('stock').select('wood').where('id', '=', id).executeTakeFirst();
    expect(await woodOf(1)).toEqual({ wood: 'oak' });
    expect(await woodOf(2)).toEqual({ wood: 'ash' });
    expect(await woodOf(3)).toBeUndefined();
  });

  it('sees columns that came and went meanwhile', async () => {
    await add(1, 'oak');
    expect(await all()).toEqual([{ id: 1, wood: 'oak' }]);
    await sql`alter table stock add column dry integer not null default 1`.execute(db);
    expect(await all()).toEqual([{ id: 1, wood: 'oak', dry: 1 }]);
    await sql`alter table stock rename column wood to species`.execute(db);
    await sql`alter table stock drop column dry`.execute(db);
    expect(await all()).toEqual([{ id: 1, species: 'oak' }]);
  });

  it('is whole again after one that failed', async () => {
    await add(1, 'oak');
    await expect(add(1, 'ash')).rejects.toThrow(/UNIQUE/);
    await add(2, 'ash');
    expect(await all()).toHaveLength(2);
  });

  it('is asked from its beginning after a reading that was broken off', async () => {
    for (let id = 1; id <= 5; id++) await add(id, 'elm');
    const asked = db.selectFrom('stock').select('id').orderBy('id');
    for await (const { id } of asked.stream()) if (id === 2) break;
    expect((await asked.execute()).map(({ id }) => id)).toEqual([1, 2, 3, 4, 5]);
    await add(6, 'elm');
  });

  it('holds nothing open: others write, and the file is given back', async () => {
    await add(1, 'oak');
    await all();
    const other = openSqliteFile(join(folder, 'store.sqlite'));
    other.exec("insert into stock values (2, 'ash')");
    other.close();
    expect(await all()).toHaveLength(2);
    // more than are kept
    for (let n = 1; n <= 450; n++) {
      const ids = Array.from({ length: n }, (_, i) => i);
      expect(
        await db.selectFrom('stock').select('id').where('id', 'in', ids).execute(),
      ).toHaveLength(Math.min(2, n - 1));
    }
  });
});
