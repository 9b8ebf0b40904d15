import { mkdtempSync, renameSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { DatabaseSync } from 'node:sqlite';
import { afterEach, beforeEach, describe, expect, it, vi } from 'vitest';
import { openSite, type Site } from '../../../src/accounts/index.ts';
import { openLog } from '../../../src/logging/index.ts';
import { makeReadiness } from '../../../src/server/readiness.ts';

let folder: string;
let site: Site;
const logged: string[] = [];
beforeEach(async () => {
  folder = mkdtempSync(join(tmpdir(), 'ready-test-'));
  site = await openSite({
    dataDir: folder,
    contentDir: 'content',
    address: new URL('http://localhost'),
  });
  logged.length = 0;
  openLog('info', ({ event }) => logged.push(event));
});
afterEach(async () => {
  await site.store.close().catch(() => undefined);
  rmSync(folder, { recursive: true, force: true });
});

const ask = (diskFloor = 0, stopping = false) =>
  makeReadiness(site, { dataDir: folder, diskFloor })(stopping);
/** The checks that failed. */
const failed = async (...given: Parameters<typeof ask>): Promise<string[]> => {
  const { ready, checks } = await ask(...given);
  const names = Object.entries(checks).flatMap(([name, state]) => (state === 'ok' ? [] : [name]));
  expect(ready).toBe(names.length === 0);
  return names;
};
const change = (sql: string): void => {
  const raw = new DatabaseSync(join(folder, 'store.sqlite'));
  raw.exec(sql);
  raw.close();
};

describe('a site is ready', () => {
  it('when all is well, and asking changes nothing', async () => {
    const before = await site.store.checkpoint();
    expect(await failed()).toEqual([]);
    expect(await site.store.checkpoint()).toBe(before);
  });

  it('not while it stops', async () => {
    expect(await failed(0, true)).toEqual(['running']);
  });

  it('not while the store takes no writes', async () => {
    change("create trigger no_more before update on log_head begin select raise(abort, 'no'); end");
    expect(await failed()).toEqual(['store']);
  });

  it('not while another process holds the store', async () => {
    const raw = new DatabaseSync(join(folder, 'store.sqlite'));
    raw.exec('begin immediate');
    expect(await failed()).toContain('store');
    raw.exec('rollback');
    raw.close();
  });

  it('not with a head that its key did not sign', async () => {
    change("update log_head set note = replace(note, '0', '1')");
    expect(await failed()).toEqual(['log']);
  });

  it('not with tables of another version', async () => {
    change("insert into kysely_migration values ('9999-from-later', '2026-03-03T09:30:00.000Z')");
    expect(await failed()).toEqual(['tables']);
  });

  it('not without its key file', async () => {
    renameSync(join(folder, 'site-key.json'), join(folder, 'elsewhere.json'));
    expect(await failed()).toEqual(['key']);
  });

  it('not with less room than it should have', async () => {
    expect(await failed(Number.MAX_SAFE_INTEGER)).toEqual(['disk']);
  });

  it('is told once when it changes, however often it is asked', async () => {
    vi.useFakeTimers({ toFake: ['performance'] });
    const isReady = makeReadiness(site, { dataDir: folder, diskFloor: Number.MAX_SAFE_INTEGER });
    for (let i = 0; i < 3; i++) {
      await isReady(false);
      vi.advanceTimersByTime(2_000);
    }
    vi.useRealTimers();
    expect(logged).toEqual(['not-ready']);
  });
});
