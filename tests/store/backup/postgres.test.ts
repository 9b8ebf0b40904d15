import { existsSync, mkdirSync, mkdtempSync, readdirSync, rmSync, truncateSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { Client } from 'pg';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { makeBackup, restoreBackup } from '../../../src/store/backup/index.ts';
import { openSiteKey, openStore, type Store } from '../../../src/store/index.ts';
import {
  hasPostgres,
  makeDatabase,
  sharedDatabase,
  type TempDatabase,
} from '../../helpers/postgres.ts';
import { draftInvitation } from '../temp-store.ts';

describe.skipIf(!hasPostgres())('a backup of a PostgreSQL database', () => {
  let folder: string;
  let database: TempDatabase;
  let store: Store;
  const more: TempDatabase[] = [];
  beforeAll(async () => {
    folder = mkdtempSync(join(tmpdir(), 'backup-postgres-'));
    database = await sharedDatabase();
    mkdirSync(join(folder, 'data'));
    const key = await openSiteKey(join(folder, 'data', 'site-key.json'), false);
    store = await openStore({ url: database.url }, key);
  }, 60_000);
  afterAll(async () => {
    await store.close();
    for (const one of [...more, database]) await one.remove();
    rmSync(folder, { recursive: true, force: true });
  }, 60_000);

  const emptyDatabase = async (): Promise<TempDatabase> => {
    const made = await makeDatabase(database.url);
    more.push(made);
    return made;
  };
  const order = (name: string) => ({
    dataDir: join(folder, 'data'),
    databaseUrl: database.url,
    folder: join(folder, name),
    version: '0.0.1',
    now: new Date('2026-03-03T09:30:00Z'),
  });
  const refusal = (work: Promise<unknown>): Promise<string> =>
    work.then(
      () => 'it went through',
      (error: Error) => `${error.name}: ${error.message}`,
    );
  const rowsIn = async (url: string, sql: string): Promise<string[]> => {
    const client = new Client({ connectionString: url });
    await client.connect();
    try {
      const { rows } = await client.query(sql);
      return rows.map((row) => String(Object.values(row)[0]));
    } finally {
      await client.end();
    }
  };

  it('made while events are appended holds all that was acknowledged before it', async () => {
    const kept: string[] = [];
    const append = async (count: number) => {
      for (let i = 0; i < count; i++) kept.push((await store.append(draftInvitation())).event.id);
    };
    await append(40);
    const before = [...kept];
    const [{ log }] = await Promise.all([makeBackup(order('backup')), append(160)]);
    expect(kept).toHaveLength(200);
    expect(log.size).toBeGreaterThanOrEqual(40);

    const { url } = await emptyDatabase();
    const dataDir = join(folder, 'again');
    const { manifest } = await restoreBackup({
      folder: join(folder, 'backup'),
      dataDir,
      databaseUrl: url,
    });
    expect(manifest.engine).toBe('postgresql');
    expect(readdirSync(dataDir)).toEqual(['site-key.json']);
    const there = await rowsIn(url, 'select id from event order by seq');
    expect(before.filter((id) => !there.includes(id))).toEqual([]);
    expect(there).toEqual(kept.slice(0, log.size));
    // what protects the log was restored with it
    expect(await refusal(rowsIn(url, 'delete from event'))).toMatch(/append-only/);
  }, 60_000);

  it('is refused where something lies, and when it was cut short, and nothing stays', async () => {
    await makeBackup(order('second'));
    const again = { folder: join(folder, 'second'), dataDir: join(folder, 'other') };
    expect(await refusal(restoreBackup({ ...again, databaseUrl: database.url }))).toMatch(
      /^BackupProblem: The database is not empty; [^\n]*\.$/,
    );
    expect(await refusal(restoreBackup(again))).toMatch(
      /of a PostgreSQL database; set DATABASE_URL/,
    );
    truncateSync(join(folder, 'second', 'store.dump'), 2_000);
    const { url } = await emptyDatabase();
    expect(await refusal(restoreBackup({ ...again, databaseUrl: url }))).toMatch(
      /has 2000 bytes and/,
    );
    expect(existsSync(again.dataDir)).toBe(false);
  }, 60_000);

  it('of a log that was changed is refused after it was read, and the database is empty again', async () => {
    const spoiled = await emptyDatabase();
    const { url } = await emptyDatabase();
    const source = { folder: join(folder, 'backup'), dataDir: join(folder, 'third') };
    await restoreBackup({ ...source, databaseUrl: spoiled.url });
    await rowsIn(spoiled.url, 'alter table event disable trigger all');
    await rowsIn(
      spoiled.url,
      "update event set json = replace(json, 'trainee', 'trainer') where seq = 3",
    );
    await makeBackup({ ...order('spoiled'), databaseUrl: spoiled.url });
    const said = await refusal(
      restoreBackup({
        folder: join(folder, 'spoiled'),
        dataDir: join(folder, 'fourth'),
        databaseUrl: url,
      }),
    );
    expect(said).toMatch(/log of this backup is not whole.*event 3/);
    const left = 'select tablename from pg_tables where schemaname = current_schema()';
    expect(await rowsIn(url, left)).toEqual([]);
    expect(readdirSync(join(folder, 'fourth'))).toEqual([]);
  }, 60_000);

  it('says in one sentence that the database does not answer', async () => {
    const nobody = new URL(database.url);
    nobody.port = '9';
    const said = await refusal(makeBackup({ ...order('none'), databaseUrl: nobody.href }));
    expect(said).toMatch(/^BackupProblem: The database does not answer: [^\n]*\.$/);
  });
});
