import { execFileSync } from 'node:child_process';
import { mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { DatabaseSync } from 'node:sqlite';
import { sql } from 'kysely';
import { describe, expect, it } from 'vitest';
import { openSiteKey, openStore, type Store } from '../../../src/store/index.ts';
import { draftInvitation } from '../../store/temp-store.ts';
import { openSqliteEngine } from './engine.ts';
import { findWrong, type RawLog } from './independent-log.ts';

/** Writes until the store refuses; returns what it acknowledged and why it stopped. */
async function fillUp(store: Store, most = 20_000): Promise<{ kept: string[]; error: unknown }> {
  const kept: string[] = [];
  while (kept.length < most) {
    try {
      kept.push((await store.append(draftInvitation())).event.id);
    } catch (error) {
      return { kept, error };
    }
  }
  return { kept, error: null };
}

const missing = (log: RawLog, kept: readonly string[]): string[] => {
  const there = new Set(log.rows.map(({ id }) => id));
  return kept.filter((id) => !there.has(id));
};

const readLog = (file: string): RawLog => {
  const database = new DatabaseSync(file, { readOnly: true });
  const all = (text: string) => database.prepare(text).all() as never[];
  try {
    return {
      rows: all('select seq, id, json from event order by seq'),
      nodes: all('select level, position, hash from tree_node'),
      heads: all('select size, root, note from log_head'),
    };
  } finally {
    database.close();
  }
};

/** A file system of `kb` kB, where this user may make one. */
function mountSmall(kb: number): { folder: string; remove: () => void } | null {
  const folder = mkdtempSync(join(tmpdir(), 'faults-small-'));
  try {
    execFileSync('mount', ['-t', 'tmpfs', '-o', `size=${kb}k`, 'tmpfs', folder], {
      stdio: 'ignore',
    });
  } catch {
    rmSync(folder, { recursive: true, force: true });
    return null;
  }
  return {
    folder,
    remove: () => {
      execFileSync('umount', ['-l', folder]);
      rmSync(folder, { recursive: true, force: true });
    },
  };
}

describe('a store with no room left', () => {
  it('keeps what it acknowledged, refuses the rest, and goes on once there is room', async () => {
    const engine = await openSqliteEngine();
    if (!('file' in engine.place)) throw new Error('SQLite keeps a file');
    const store = await openStore(
      engine.place,
      await openSiteKey(engine.keyFile, engine.place.file),
    );
    try {
      await store.append(draftInvitation());
      // the engine's own limit answers as a full disk does: SQLITE_FULL
      const pages = await sql<{ page_count: number }>`pragma page_count`.execute(store.db);
      const size = pages.rows[0]?.page_count ?? 0;
      await sql`pragma max_page_count = ${sql.lit(size + 6)}`.execute(store.db);
      const { kept, error } = await fillUp(store);
      expect(String(error)).toContain('full');
      expect(kept.length).toBeGreaterThan(5);
      const full = await engine.readLog();
      expect(missing(full, kept)).toEqual([]);
      expect(full.rows).toHaveLength(kept.length + 1);
      expect(findWrong(full, engine.keyFile)).toEqual([]);

      await sql`pragma max_page_count = 1000000`.execute(store.db);
      await store.append(draftInvitation());
      expect(findWrong(await engine.readLog(), engine.keyFile)).toEqual([]);
    } finally {
      await store.close();
      await engine.remove();
    }
  });

  const small = mountSmall(1_600);
  it.skipIf(small === null)(
    'does the same on a disk that is really full',
    async () => {
      const { folder = '', remove } = small ?? { remove: () => undefined };
      const file = join(folder, 'store.sqlite');
      const keyFile = join(folder, 'site-key.json');
      try {
        const store = await openStore({ file }, await openSiteKey(keyFile, file));
        const ballast = join(folder, 'ballast');
        writeFileSync(ballast, Buffer.alloc(64 * 1024));
        const { kept, error } = await fillUp(store);
        expect(String(error)).toMatch(/full|disk I\/O/);
        expect(kept.length).toBeGreaterThan(20);
        expect(missing(readLog(file), kept)).toEqual([]);
        expect(findWrong(readLog(file), keyFile)).toEqual([]);
        rmSync(ballast);
        await store.append(draftInvitation());
        await store.close();
        const again = readLog(file);
        expect(missing(again, kept)).toEqual([]);
        expect(findWrong(again, keyFile)).toEqual([]);
      } finally {
        remove();
      }
    },
    60_000,
  );
});

describe('a store that may only be read', () => {
  it('is still read, refuses to write, and goes on once it may', async () => {
    const engine = await openSqliteEngine();
    if (!('file' in engine.place)) throw new Error('SQLite keeps a file');
    const store = await openStore(
      engine.place,
      await openSiteKey(engine.keyFile, engine.place.file),
    );
    try {
      const { event } = await store.append(draftInvitation());
      await sql`pragma query_only = on`.execute(store.db);
      await expect(store.append(draftInvitation())).rejects.toThrow(/readonly/);
      expect((await store.event(event.id))?.broken).toBeNull();
      await sql`pragma query_only = off`.execute(store.db);
      await store.append(draftInvitation());
      const log = await engine.readLog();
      expect(log.rows).toHaveLength(2);
      expect(findWrong(log, engine.keyFile)).toEqual([]);
    } finally {
      await store.close();
      await engine.remove();
    }
  });
});
