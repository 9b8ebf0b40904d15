import { spawn } from 'node:child_process';
import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import { auditLog } from '../../src/records/index.ts';
import { openStore } from '../../src/store/index.ts';
import { makeTempStore, ORG } from './temp-store.ts';

const ROUNDS = 8;

/**
 * Runs the writer in another process and kills it `lateMs` after it acknowledged `answers` events, so at no
 * particular moment of the next one. Returns the ids of what it acknowledged.
 */
async function writeUntilKilled(
  folder: string,
  answers: number,
  lateMs: number,
): Promise<string[]> {
  const writer = spawn(process.execPath, [join(import.meta.dirname, 'crash-writer.ts'), folder], {
    stdio: ['ignore', 'pipe', 'inherit'],
  });
  let printed = '';
  let killing = false;
  await new Promise<void>((resolve, reject) => {
    writer.on('error', reject);
    writer.on('close', () => resolve());
    writer.stdout.on('data', (chunk) => {
      printed += String(chunk);
      if (killing || printed.split('\n').length - 2 < answers) return;
      killing = true;
      setTimeout(() => writer.kill('SIGKILL'), lateMs);
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
        acknowledged.push(...(await writeUntilKilled(temp.folder, 3 + round, round * 1.7)));
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
  }, 120_000);
});
