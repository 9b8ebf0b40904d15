import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import type { EventDraft } from '../../../src/records/index.ts';
import { openSiteKey, openStore, type Store } from '../../../src/store/index.ts';
import { type Cluster, hasPostgres, makeDatabase, startCluster } from '../../helpers/postgres.ts';
import { draftInvitation } from '../../store/temp-store.ts';
import { readPostgresLog } from './engine.ts';
import { findWrong } from './independent-log.ts';

const CRASHES = 4;
const HANDS = 6;

const pause = (ms: number): Promise<void> => new Promise((wake) => setTimeout(wake, ms));

describe.skipIf(!hasPostgres())('a database that is ended and started again under load', () => {
  let cluster: Cluster;
  let folder: string;
  beforeAll(async () => {
    folder = mkdtempSync(join(tmpdir(), 'faults-restart-'));
    cluster = await startCluster();
  }, 60_000);
  afterAll(() => {
    cluster?.stop();
    rmSync(folder, { recursive: true, force: true });
  });

  /** Sends an event until it is acknowledged, as a device does; counts what went wrong on the way. */
  async function sendUntilKept(store: Store, draft: EventDraft, failures: string[]) {
    const giveUp = Date.now() + 60_000;
    for (;;) {
      try {
        return await store.append(draft);
      } catch (error) {
        failures.push(error instanceof Error ? error.message : String(error));
        if (Date.now() > giveUp) throw error;
        await pause(20);
      }
    }
  }

  it(`loses and doubles nothing in ${CRASHES} restarts, and the same connections go on`, async () => {
    const { url } = await makeDatabase(cluster.url);
    const keyFile = join(folder, 'site-key.json');
    const store = await openStore({ url }, await openSiteKey(keyFile, false));
    const sent: EventDraft[] = [];
    const failures: string[] = [];
    let isOver = false;
    const hand = async () => {
      while (!isOver) {
        const draft = draftInvitation();
        sent.push(draft);
        await sendUntilKept(store, draft, failures);
      }
    };
    const hands = Array.from({ length: HANDS }, hand);
    for (let crash = 0; crash < CRASHES; crash++) {
      const before = sent.length;
      while (sent.length < before + 20) await pause(10);
      cluster.crash();
      await pause(50);
      cluster.start();
    }
    const before = sent.length;
    while (sent.length < before + 20) await pause(10);
    isOver = true;
    await Promise.all(hands);
    await store.close();

    // restarts that nobody noticed would show nothing
    expect(failures.length).toBeGreaterThan(CRASHES);
    const log = await readPostgresLog(url);
    expect(findWrong(log, keyFile)).toEqual([]);
    expect(log.rows.map(({ id }) => id).sort()).toEqual(sent.map(({ id }) => id).sort());
    console.log(`${CRASHES} restarts: ${sent.length} events, ${failures.length} tries failed`);
  }, 120_000);
});
