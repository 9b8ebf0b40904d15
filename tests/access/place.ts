import { createHash } from 'node:crypto';
import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { DatabaseSync } from 'node:sqlite';
import { Client } from 'pg';
import type { PostgresPlace } from '../../src/store/index.ts';
import { TABLE_NAMES } from '../../src/store/walls.ts';
import { askByDefault } from '../helpers/asked-by-default.ts';
import { takePrepared } from '../store/prepared.ts';

/** Where a site of the tests keeps everything, and how to read it past the site. */
export type WorldPlace = {
  readonly dataDir: string;
  /** where its tables are, when that is PostgreSQL */
  readonly database: PostgresPlace | null;
  /** what a process is told, to find it */
  readonly env: Readonly<Record<string, string>>;
  /** What each table holds, as a digest: no code of ours stands between. When a session was last seen is left out. */
  readonly digest: () => Promise<Readonly<Record<string, string>>>;
  readonly remove: () => Promise<void>;
};

type Row = Readonly<Record<string, unknown>>;

/** Looking at a page is what moves `seenAt`. */
function digestOf(rows: Iterable<Row>): string {
  const hash = createHash('sha256');
  for (const { seenAt: _, ...row } of rows) {
    hash.update(
      JSON.stringify(row, (_key, value) => (typeof value === 'bigint' ? `${value}` : value)),
    );
  }
  return hash.digest('hex');
}

function digestFile(file: string): Readonly<Record<string, string>> {
  const db = new DatabaseSync(file, { readOnly: true });
  try {
    const names = db
      .prepare("select name from sqlite_master where type = 'table' order by name")
      .all()
      .map(({ name }) => String(name));
    return Object.fromEntries(
      names.map((name) => [
        name,
        digestOf(db.prepare(`select * from "${name}"`).iterate() as never),
      ]),
    );
  } finally {
    db.close();
  }
}

async function digestRows(rootUrl: string): Promise<Readonly<Record<string, string>>> {
  const client = new Client({ connectionString: rootUrl });
  await client.connect();
  try {
    // one moment for all tables
    await client.query('begin isolation level repeatable read read only');
    const digests: Record<string, string> = {};
    for (const name of TABLE_NAMES) {
      // a row that is written anew moves, so the order is that of what they hold
      const sql = `select to_jsonb(one) - 'seenAt' as held from "${name}" as one order by held`;
      const { rows } = await client.query<{ held: Row }>(sql);
      digests[name] = digestOf(rows.map(({ held }) => held));
    }
    return digests;
  } finally {
    await client.end();
  }
}

/** A fresh place: on SQLite, and on PostgreSQL behind its walls where the run is told so (`TEST_STORE_ON`). */
export async function makeWorldPlace(): Promise<WorldPlace> {
  const dataDir = mkdtempSync(join(tmpdir(), 'access-world-'));
  const removeFolder = () => rmSync(dataDir, { recursive: true, force: true });
  if (process.env['TEST_STORE_ON'] !== 'postgresql') {
    return {
      dataDir,
      database: null,
      env: { DATA_DIR: dataDir },
      digest: async () => digestFile(join(dataDir, 'store.sqlite')),
      remove: async () => removeFolder(),
    };
  }
  const { place, rootUrl, giveBack } = await takePrepared();
  askByDefault('site');
  return {
    dataDir,
    database: place,
    env: { DATA_DIR: dataDir, DATABASE_URL: place.url, DATABASE_OWNER_URL: place.ownerUrl },
    digest: () => digestRows(rootUrl),
    async remove() {
      await giveBack();
      removeFolder();
    },
  };
}
