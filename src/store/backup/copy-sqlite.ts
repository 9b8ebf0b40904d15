import { chmodSync, existsSync } from 'node:fs';
import { copyFile } from 'node:fs/promises';
import { join } from 'node:path';
import { DatabaseSync } from 'node:sqlite';
import type { BackupEngine, Copied } from './engine.ts';
import { vacuumInto } from './vacuum-into.ts';

type Head = { readonly size: number; readonly root: string; readonly note: string };

/** What a copy says of its own log and tables. It is opened to read, and nothing is changed. */
function readSqliteHead(file: string): Copied {
  const database = new DatabaseSync(file, { readOnly: true });
  try {
    const head = database.prepare('select size, root, note from log_head').get() as unknown as Head;
    const newest = database
      .prepare('select name from kysely_migration order by name desc limit 1')
      .get();
    return {
      log: {
        size: head.size,
        root: Buffer.from(head.root, 'hex').toString('base64'),
        checkpoint: head.note,
      },
      tables: String(newest?.['name'] ?? ''),
    };
  } finally {
    database.close();
  }
}

export const STORE_FILE = 'store.sqlite';

/** The store in a data folder. */
export function sqliteEngine(dataDir: string): BackupEngine {
  return {
    name: 'sqlite',
    file: STORE_FILE,
    async copy(to) {
      await vacuumInto(join(dataDir, STORE_FILE), to);
      chmodSync(to, 0o600);
      return readSqliteHead(to);
    },
    // a data folder that is empty holds no store
    checkEmpty: async () => undefined,
    async load(from, work) {
      const file = join(work, STORE_FILE);
      await copyFile(from, file);
      return { file };
    },
    // it lies in the folder that is taken away as a whole
    clear: async () => undefined,
  };
}

/** Whether a data folder holds a store. */
export const hasSqlite = (dataDir: string): boolean => existsSync(join(dataDir, STORE_FILE));
