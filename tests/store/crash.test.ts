import { spawn } from 'node:child_process';
import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import { auditLog } from '../../src/records/index.ts';
import { openStore } from '../../src/store/index.ts';
import { makeTempStore, ORG } from './temp-store.ts';

const ROUNDS = 8;

/** Runs the writer in another process, kills it `afterMs` after its first answer, and returns what it acknowledged. */
async function writeUntilKilled(folder: string, afterMs: number): Promise<string[]> {
  const writer = spawn(process.execPath, [join(import.meta.dirname, 'crash-writer.ts'), folder], {
    stdio: ['ignore', 'pipe', 'inherit'],
  });
  let printed = '';
  await new Promise<void>((resolve, reject) => {
    writer.on('error', reject);
    writer.on('close', () => resolve());
    writer.stdout.on('data', (chunk) => {
      if (printed === '') setTimeout(() => writer.kill('SIGKILL'), afterMs);
      printed += String(chunk);
    });
  });
  // The last line may be cut in half; a whole line was acknowledged.
  return printed.split('\n').slice(1, -1);
}

describe('a writer killed with SIGKILL', () => {
  it(`loses nothing it acknowledged, in ${ROUNDS} rounds, and the log verifies after each`, async () => {
    const temp = await makeTempStore();
    await temp.store.close();
    const acknowledged: string[] = [];
    try {
      for (let round = 0; round < ROUNDS; round++) {
        acknowledged.push(...(await writeUntilKilled(temp.folder, 20 + round * 17)));
        const store = await openStore({ file: temp.file }, temp.siteKey);
        const stored = await store.events({ org: ORG });
        const report = await auditLog(store.readAll(), {
          checkpoints: [await store.checkpoint()],
          publicKeys: [temp.siteKey.publicKey],
          depth: 'events',
        });
        await store.close();
        expect(report).toMatchObject({ ok: true, size: stored.length });
        const kept = new Set(stored.map((one) => one.event?.id));
        expect(acknowledged.filter((id) => !kept.has(id))).toEqual([]);
        expect(kept.size).toBe(stored.length);
      }
      expect(acknowledged.length).toBeGreaterThan(ROUNDS);
    } finally {
      await temp.remove();
    }
  }, 60_000);
});
