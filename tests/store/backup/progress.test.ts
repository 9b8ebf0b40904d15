import { join } from 'node:path';
import { expect, it } from 'vitest';
import { sqliteEngine } from '../../../src/store/backup/copy-sqlite.ts';
import { makeBackup, type Progress, restoreBackup } from '../../../src/store/backup/index.ts';
import { draftInvitation, makeTempStore } from '../temp-store.ts';

it('a backup and a restore tell how far they are, and this thread is free meanwhile', async () => {
  const temp = await makeTempStore();
  try {
    await temp.store.write(async ({ append }) => {
      for (let i = 0; i < 2_100; i++) await append(draftInvitation());
    });
    const told: Progress[] = [];
    const tell = (progress: Progress) => void told.push(progress);
    const folder = join(temp.folder, 'backup');
    let turns = 0;
    const turning = setInterval(() => turns++, 1);
    const order = { dataDir: temp.folder, folder, version: '0.0.1', now: new Date(), tell };
    const { files } = await makeBackup({
      ...order,
      // the usual copy of so small a store is done before anybody looks
      copy: async (to) => {
        await new Promise((wait) => setTimeout(wait, 700));
        const before = turns;
        const copied = await sqliteEngine(temp.folder).copy(to);
        expect(turns).toBeGreaterThan(before);
        return copied;
      },
    });
    clearInterval(turning);
    await restoreBackup({ folder, dataDir: join(temp.folder, 'again'), tell });
    const bytes = files[0]?.bytes;
    expect(told[0]).toEqual({ step: 'copy', done: null, whole: null });
    expect(told.filter(({ step }) => step === 'digests').at(-1)?.done).toBe(bytes);
    const audit = told
      .filter(({ step }) => step === 'audit')
      .map(({ done, whole }) => [done, whole]);
    expect(audit).toEqual([
      [1_000, 2_100],
      [2_000, 2_100],
      [2_100, 2_100],
    ]);
  } finally {
    await temp.remove();
  }
});
