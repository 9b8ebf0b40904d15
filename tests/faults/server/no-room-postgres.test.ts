import { execFileSync } from 'node:child_process';
import { chmodSync, mkdirSync, mkdtempSync, rmSync, statSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { openSiteKey, openStore, type Store } from '../../../src/store/index.ts';
import {
  type Cluster,
  hasPostgres,
  makeDatabase,
  runSql,
  startCluster,
} from '../../helpers/postgres.ts';
import { draftInvitation } from '../../store/temp-store.ts';
import { readPostgresLog } from './engine.ts';
import { findWrong } from './independent-log.ts';

/** Only root may make a small file system of its own. */
const isRoot = process.getuid?.() === 0;

async function fillUp(store: Store, most: number): Promise<{ kept: string[]; error: unknown }> {
  const kept: string[] = [];
  while (kept.length < most) {
    try {
      // large ones, so that a few hundred fill the disk
      const wide = draftInvitation({ by: 'x'.repeat(60) });
      kept.push((await store.append(wide)).event.id);
    } catch (error) {
      return { kept, error };
    }
  }
  return { kept, error: null };
}

describe.skipIf(!hasPostgres())('a PostgreSQL store', () => {
  let cluster: Cluster;
  let folder: string;
  beforeAll(async () => {
    folder = mkdtempSync(join(tmpdir(), 'faults-room-'));
    chmodSync(folder, 0o755);
    cluster = await startCluster();
  }, 60_000);
  afterAll(() => {
    cluster?.stop();
    rmSync(folder, { recursive: true, force: true });
  });

  it('that may only be read is still read, refuses to write, and goes on once it may', async () => {
    const { url } = await makeDatabase(cluster.url);
    const keyFile = join(folder, 'read-only-key.json');
    const name = new URL(url).pathname.slice(1);
    const key = await openSiteKey(keyFile, false);
    const first = await openStore({ url }, key);
    const { event } = await first.append(draftInvitation());
    await runSql(url, `alter database ${name} set default_transaction_read_only = on`);
    await first.close();
    // connections made from now on may only read
    const store = await openStore({ url }, key).catch((error: unknown) => error as Error);
    if (store instanceof Error) expect(store.message).toMatch(/read-only/);
    else {
      await expect(store.append(draftInvitation())).rejects.toThrow(/read-only/);
      expect((await store.event(event.id))?.broken).toBeNull();
      await store.close();
    }
    await runSql(cluster.url, `alter database ${name} set default_transaction_read_only = off`);
    const again = await openStore({ url }, key);
    await again.append(draftInvitation());
    await again.close();
    const log = await readPostgresLog(url);
    expect(log.rows).toHaveLength(2);
    expect(findWrong(log, keyFile)).toEqual([]);
  });

  it.skipIf(!isRoot)(
    'on a disk that is full keeps what it acknowledged, refuses the rest, and goes on once there is room',
    async () => {
      const disk = join(folder, 'disk');
      mkdirSync(disk);
      execFileSync('mount', ['-t', 'tmpfs', '-o', 'size=20m', 'tmpfs', disk]);
      try {
        const place = join(disk, 'space');
        mkdirSync(place);
        const { uid, gid } = statSync(cluster.folder);
        execFileSync('chown', [`${uid}:${gid}`, place]);
        await runSql(cluster.url, `create tablespace small location '${place}'`);
        const { url } = await makeDatabase(cluster.url, 'tablespace small');
        const keyFile = join(folder, 'full-key.json');
        const store = await openStore({ url }, await openSiteKey(keyFile, false));
        const ballast = join(place, 'ballast');
        execFileSync('sh', ['-c', `head -c 20m /dev/zero > ${ballast} || true`], {
          stdio: 'ignore',
        });
        execFileSync('truncate', ['-s', '-200K', ballast]);
        const { kept, error } = await fillUp(store, 5_000);
        expect(String(error)).toMatch(/No space left|could not extend/);
        const full = await readPostgresLog(url);
        const there = new Set(full.rows.map(({ id }) => id));
        expect(kept.filter((id) => !there.has(id))).toEqual([]);
        expect(full.rows).toHaveLength(kept.length);
        expect(findWrong(full, keyFile)).toEqual([]);

        rmSync(ballast);
        await store.append(draftInvitation());
        await store.close();
        const log = await readPostgresLog(url);
        expect(log.rows).toHaveLength(kept.length + 1);
        expect(findWrong(log, keyFile)).toEqual([]);
      } finally {
        execFileSync('umount', ['-l', disk]);
      }
    },
    60_000,
  );
});
