import { expect, it } from 'vitest';
import type { Engine } from './engine.ts';
import { killInRounds } from './kill-rounds.ts';
import { bundleWriter } from './writing-process.ts';

/**
 * The full count is `KILL_ROUNDS=200 npm run unit -- tests/faults/server/kill`, three minutes on each engine; every run
 * of all tests has fewer of the same seed. `KILL_SEED=7` for others.
 */
const ROUNDS = Number(process.env['KILL_ROUNDS'] ?? 60);
const SEED = Number(process.env['KILL_SEED'] ?? 20261128);

/** Holds a fresh store of one engine to it that processes killed while they write lose, double and tear nothing. */
export function expectNothingLost(open: () => Promise<Engine>): void {
  it(`loses, doubles and tears nothing in ${ROUNDS} rounds, and its log is whole after each`, async () => {
    const writer = await bundleWriter();
    const engine = await open();
    try {
      const came = await killInRounds(engine, { rounds: ROUNDS, seed: SEED, writer: writer.file });
      console.log(`${engine.name}: ${JSON.stringify(came)}`);
      expect(came).toMatchObject({ lost: 0, doubled: 0, torn: 0, wrong: [] });
      // rounds that hit nothing would show nothing
      expect(came.killed.writing).toBeGreaterThan(ROUNDS / 2);
      expect(came.acknowledged).toBeGreaterThan(ROUNDS);
      expect(came.acknowledgedTwice).toBeGreaterThan(ROUNDS / 4);
      expect(came.emptied).toBeGreaterThan(ROUNDS / 5);
    } finally {
      await engine.remove();
      writer.remove();
    }
  }, 900_000);
}
