import { chmodSync, copyFileSync, existsSync } from 'node:fs';
import { join } from 'node:path';
import { DatabaseSync } from 'node:sqlite';
import type { BackupEngine, Copied } from './engine.ts';

/**
 * Copies a store that is in use into a new file, as it was at one moment. It is read in one transaction of
 * a connection of its own, so whoever writes goes on and nothing is copied twice. `vacuum into` writes the
 * rows anew: what was erased is not carried along in pages no longer used, as it would be in a copy of the
 * file page by page.
 *
 * @throws the database's own error
 */
function copySqlite(from: string, to: string): void {
  // not read-only: the last connection to a store that is not in use would then leave two files beside it
  const database = new DatabaseSync(from, { timeout: 5_000 });
  try {
    database.prepare('vacuum into ?').run(to);
  } finally {
    database.close();
  }
}

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
      copySqlite(join(dataDir, STORE_FILE), to);
      chmodSync(to, 0o600);
      return readSqliteHead(to);
    },
    // a data folder that is empty holds no store
    checkEmpty: async () => undefined,
    async load(from, work) {
      const file = join(work, STORE_FILE);
      copyFileSync(from, file);
      return { file };
    },
    // it lies in the folder that is taken away as a whole
    clear: async () => undefined,
  };
}

/** Whether a data folder holds a store. */
export const hasSqlite = (dataDir: string): boolean => existsSync(join(dataDir, STORE_FILE));
