import { execFile } from 'node:child_process';
import { join } from 'node:path';
import { promisify } from 'node:util';
import { describe, expect, it } from 'vitest';
import { auditLog } from '../../src/records/index.ts';
import { draftInvitation, ENGINES } from './temp-store.ts';

const PROCESSES = 4;
const EACH = 200;
const WRITER = join(import.meta.dirname, 'many-writer.ts');

describe.each(ENGINES)('several processes on one store on %s', (_name, make) => {
  it('keep one log: no fork, no gap, every acknowledged event there once', async () => {
    const temp = await make();
    const keyFile = join(temp.folder, 'site-key.json');
    const order = JSON.stringify({ place: temp.place, keyFile, count: EACH });
    const outputs = await Promise.all(
      Array.from({ length: PROCESSES }, () =>
        promisify(execFile)(process.execPath, [WRITER, order]),
      ),
    );
    const kept = outputs.flatMap(({ stdout }) => JSON.parse(stdout) as string[]);
    expect(new Set(kept).size).toBe(PROCESSES * EACH);

    const rows = await temp.runRaw('select seq, id from event order by seq');
    expect(rows.map(({ seq }) => Number(seq))).toEqual([...Array(PROCESSES * EACH).keys()]);
    expect(rows.map(({ id }) => id).sort()).toEqual(kept.sort());
    const audit = async () =>
      auditLog(temp.store.readAll(), {
        checkpoints: [await temp.store.checkpoint()],
        publicKeys: [temp.siteKey.publicKey],
        depth: 'events',
      });
    expect(await audit()).toMatchObject({ ok: true, size: PROCESSES * EACH, firstBad: null });
    // and it goes on from there
    expect((await temp.store.append(draftInvitation())).seq).toBe(PROCESSES * EACH);
    await temp.remove();
  }, 240_000);
});
