import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { DatabaseSync } from 'node:sqlite';
import { Client } from 'pg';
import type { StorePlace } from '../../../src/store/index.ts';
import { sharedDatabase } from '../../helpers/postgres.ts';
import type { RawLog } from './independent-log.ts';

/** One place to keep a store, and a way to read it that shares nothing with the site. */
export type Engine = {
  readonly name: 'SQLite' | 'PostgreSQL';
  readonly place: StorePlace;
  readonly keyFile: string;
  readonly readLog: () => Promise<RawLog>;
  readonly remove: () => Promise<void>;
};

const ROWS = 'select seq, id, json from event order by seq';
const NODES = 'select level, position, hash from tree_node';
const HEADS = 'select size, root, note from log_head';

export async function openSqliteEngine(): Promise<Engine> {
  const folder = mkdtempSync(join(tmpdir(), 'faults-sqlite-'));
  const file = join(folder, 'store.sqlite');
  return {
    name: 'SQLite',
    place: { file },
    keyFile: join(folder, 'site-key.json'),
    async readLog() {
      const database = new DatabaseSync(file);
      try {
        const all = (sql: string) => database.prepare(sql).all() as never[];
        return { rows: all(ROWS), nodes: all(NODES), heads: all(HEADS) };
      } finally {
        database.close();
      }
    },
    remove: async () => rmSync(folder, { recursive: true, force: true }),
  };
}

/** The log of a PostgreSQL database, read straight out of it. */
export async function readPostgresLog(url: string): Promise<RawLog> {
  const client = new Client({ connectionString: url });
  await client.connect();
  try {
    // one moment: a commit of a process that was killed may still arrive between two queries
    await client.query('begin isolation level repeatable read read only');
    // int8 comes as text from this library
    const all = async (sql: string) =>
      (await client.query(sql)).rows.map((row) => {
        for (const name of ['seq', 'level', 'position', 'size']) {
          if (name in row) row[name] = Number(row[name]);
        }
        return row;
      }) as never[];
    return { rows: await all(ROWS), nodes: await all(NODES), heads: await all(HEADS) };
  } finally {
    await client.end();
  }
}

export async function openPostgresEngine(): Promise<Engine> {
  const folder = mkdtempSync(join(tmpdir(), 'faults-postgres-'));
  const { url, remove } = await sharedDatabase();
  return {
    name: 'PostgreSQL',
    place: { url },
    keyFile: join(folder, 'site-key.json'),
    readLog: () => readPostgresLog(url),
    remove: async () => {
      await remove();
      rmSync(folder, { recursive: true, force: true });
    },
  };
}
