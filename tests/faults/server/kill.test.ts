import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { ENGINES } from './engines.ts';
import { bundleWriter, killInRounds } from './kill-rounds.ts';

const ROUNDS = Number(process.env['KILL_ROUNDS'] ?? 200);
const SEED = Number(process.env['KILL_SEED'] ?? 20261128);

let writer: Awaited<ReturnType<typeof bundleWriter>>;
beforeAll(async () => {
  writer = await bundleWriter();
}, 60_000);
afterAll(() => writer?.remove());

describe.each(ENGINES)('a site on %s, killed while it writes', (_name, open) => {
  it(`loses, doubles and tears nothing in ${ROUNDS} rounds, and its log is whole after each`, async () => {
    const engine = await open();
    try {
      const came = await killInRounds(engine, { rounds: ROUNDS, seed: SEED, writer: writer.file });
      console.log(`${engine.name}: ${JSON.stringify(came)}`);
      expect(came).toMatchObject({ lost: 0, doubled: 0, torn: 0, wrong: [] });
      // rounds that hit nothing would show nothing
      expect(came.killed.writing).toBeGreaterThan(ROUNDS / 2);
      expect(came.acknowledged).toBeGreaterThan(ROUNDS);
    } finally {
      await engine.remove();
    }
  }, 300_000);
});
