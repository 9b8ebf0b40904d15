import { DatabaseSync } from 'node:sqlite';
import type { Manifest } from './manifest.ts';

/**
 * Copies a store that is in use into a new file, as it was at one moment. It is read in one transaction of
 * a connection of its own, so whoever writes goes on and nothing is copied twice. `vacuum into` writes the
 * rows anew: what was erased is not carried along in pages no longer used, as it would be in a copy of the
 * file page by page.
 *
 * @throws the database's own error
 */
export function copySqlite(from: string, to: string): void {
  // not read-only: the last connection to a store that is not in use would then leave two files beside it
  const database = new DatabaseSync(from, { timeout: 5_000 });
  try {
    database.prepare('vacuum into ?').run(to);
  } finally {
    database.close();
  }
}

type Head = { readonly size: number; readonly root: string; readonly note: string };

/** What a store in a file says of its own log and tables. It is opened to read, and nothing is changed. */
export function readSqliteHead(file: string): {
  readonly log: Manifest['log'];
  readonly tables: string;
} {
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
