import { execFileSync } from 'node:child_process';
import {
  appendFileSync,
  existsSync,
  mkdirSync,
  mkdtempSync,
  readdirSync,
  readFileSync,
  renameSync,
  rmSync,
  truncateSync,
  writeFileSync,
} from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import fc from 'fast-check';
import { afterAll, beforeAll, beforeEach, describe, expect, it } from 'vitest';
import { type BackupOrder, makeBackup, restoreBackup } from '../../../src/store/backup/index.ts';
import { draftInvitation, makeTempStore, type TempStore } from '../temp-store.ts';

let temp: TempStore;
let folder: string;
let whole: string;
beforeAll(async () => {
  temp = await makeTempStore();
  for (let i = 0; i < 20; i++) await temp.store.append(draftInvitation());
  whole = join(temp.folder, 'whole');
  await makeBackup(order({ folder: whole }));
});
afterAll(() => temp.remove());

let count = 0;
/** A folder name nobody has used yet. */
const fresh = (): string => join(temp.folder, `place-${count++}`);

const order = (over: Partial<BackupOrder> = {}): BackupOrder => ({
  dataDir: temp.folder,
  folder: fresh(),
  version: '0.0.1',
  now: new Date('2026-03-03T09:30:00Z'),
  ...over,
});

/** The sentence a promise fails with; what else it does fails the test. */
async function sentence(work: Promise<unknown>): Promise<string> {
  const error = await work.then(
    () => new Error('it went through'),
    (problem: Error) => problem,
  );
  expect(error.message).toMatch(/^\S[^\n]*\.$/);
  return `${error.name}: ${error.message}`;
}

/** Nothing may be left behind that a site could be started on. */
async function refusedBy(data = fresh()): Promise<string> {
  const said = await sentence(restoreBackup({ folder: folder, dataDir: data }));
  expect(existsSync(data) ? readdirSync(data) : []).toEqual([]);
  return said;
}

beforeEach(() => {
  folder = fresh();
  mkdirSync(folder);
  for (const name of readdirSync(whole)) {
    writeFileSync(join(folder, name), readFileSync(join(whole, name)));
  }
});

describe('a restore', () => {
  it('takes the whole backup this file spoils', async () => {
    const data = fresh();
    expect((await restoreBackup({ folder: folder, dataDir: data })).manifest.log.size).toBe(20);
    expect(readdirSync(data).sort()).toEqual(['site-key.json', 'store.sqlite']);
  });

  it('refuses a backup without its manifest', async () => {
    renameSync(join(folder, 'manifest.json'), join(folder, 'manifest.json.unfinished'));
    expect(await refusedBy()).toMatch(
      /^BackupProblem: .* holds no whole backup: its manifest.json/,
    );
  });

  it('refuses a manifest in which a date or a version was changed', async () => {
    const path = join(folder, 'manifest.json');
    const text = readFileSync(path, 'utf8');
    for (const [from, to] of [
      ['2026-03-03', '2026-03-13'],
      ['0.0.1', '0.0.2'],
    ] as const) {
      expect(text).toContain(from);
      writeFileSync(path, text.replace(from, to));
      expect(await refusedBy()).toMatch(/manifest\.json of .* was altered or cut short/);
    }
  });

  it('refuses a store that was cut short, and one with something after its end', async () => {
    truncateSync(join(folder, 'store.sqlite'), 8_192);
    expect(await refusedBy()).toMatch(/store\.sqlite has 8192 bytes and was written with \d+/);
    rmSync(join(folder, 'store.sqlite'));
    expect(await refusedBy()).toMatch(/store\.sqlite is missing/);
    writeFileSync(join(folder, 'store.sqlite'), readFileSync(join(whole, 'store.sqlite')));
    appendFileSync(join(folder, 'store.sqlite'), '\n');
    expect(await refusedBy()).toMatch(/so this backup is not used/);
  });

  it('refuses a backup with any one bit turned over, in whichever file', async () => {
    const files = ['store.sqlite', 'site-key.json', 'manifest.json'];
    await fc.assert(
      fc.asyncProperty(
        fc.constantFrom(...files),
        fc.double({ min: 0, max: 1, maxExcluded: true, noNaN: true }),
        fc.integer({ min: 0, max: 7 }),
        async (name, share, bit) => {
          const path = join(folder, name);
          const bytes = readFileSync(path);
          const at = Math.floor(share * bytes.length);
          const turned = Buffer.from(bytes);
          turned[at] = (turned[at] ?? 0) ^ (1 << bit);
          writeFileSync(path, turned);
          try {
            expect(await refusedBy()).toMatch(/is not used|was altered/);
          } finally {
            writeFileSync(path, bytes);
          }
        },
      ),
      { numRuns: 60 },
    );
  });

  it('refuses a log that does not fit together, although every digest is right', async () => {
    const source = await makeTempStore();
    for (let i = 0; i < 5; i++) await source.store.append(draftInvitation());
    const raw = source.openRaw();
    raw.exec('drop trigger event_refuses_update');
    raw.exec(`update event set json = replace(json, 'trainee', 'trainer') where seq = 3`);
    raw.close();
    const spoiled = fresh();
    await makeBackup(order({ dataDir: source.folder, folder: spoiled }));
    await source.remove();
    const said = await sentence(restoreBackup({ folder: spoiled, dataDir: fresh() }));
    expect(said).toMatch(/log of this backup is not whole.*--as-it-is \(event 3: It was altered/);
    // what is left of it is not lost for that
    const kept = await restoreBackup({ folder: spoiled, dataDir: fresh(), faults: 'keep' });
    expect(kept.fault).toMatch(/^event 3: It was altered/);
  });

  it('refuses a folder in which something lies, and leaves it as it is', async () => {
    const data = fresh();
    mkdirSync(data);
    writeFileSync(join(data, 'notes.txt'), 'mine');
    expect(await sentence(restoreBackup({ folder: folder, dataDir: data }))).toMatch(
      /is not empty; name an empty/,
    );
    expect(readdirSync(data)).toEqual(['notes.txt']);
  });

  it('needs the key that was kept apart, and takes no other', async () => {
    const apart = join(fresh(), 'site-key.json');
    const kept = fresh();
    await makeBackup(order({ folder: kept, keyFile: apart }));
    expect(readdirSync(kept).sort()).toEqual(['manifest.json', 'store.sqlite']);
    expect(await sentence(restoreBackup({ folder: kept, dataDir: fresh() }))).toMatch(
      /say where with --key FILE/,
    );
    const other = await makeTempStore();
    const strange = join(other.folder, 'site-key.json');
    expect(
      await sentence(restoreBackup({ folder: kept, dataDir: fresh(), keyFile: strange })),
    ).toMatch(/was altered after/);
    await other.remove();
    expect(
      (await restoreBackup({ folder: kept, dataDir: fresh(), keyFile: apart })).manifest.key.kept,
    ).toBe('apart');
  });
});

describe('a backup', () => {
  it('refuses a folder in which something lies', async () => {
    expect(await sentence(makeBackup(order({ folder })))).toMatch(/is not empty/);
  });

  it('refuses a folder that holds no store', async () => {
    const empty = fresh();
    mkdirSync(empty);
    expect(await sentence(makeBackup(order({ dataDir: empty })))).toMatch(/holds no store/);
  });

  it('refuses a store whose key is another one', async () => {
    const other = await makeTempStore();
    await other.store.close();
    const key = readFileSync(join(temp.folder, 'site-key.json'));
    writeFileSync(join(other.folder, 'site-key.json'), key);
    const said = await sentence(makeBackup(order({ dataDir: other.folder })));
    expect(said).toMatch(/did not sign the newest checkpoint/);
    await other.remove();
  });

  it('says that the disk is full, and takes away what it had written', async () => {
    const { place, remove } = smallPlace();
    const said = await sentence(
      makeBackup(
        order({
          folder: join(place, 'backup'),
          // where no small disk can be made, the copy is cut short as a full disk cuts it short
          ...(remove === null ? { copy: cutShort } : {}),
        }),
      ),
    );
    expect(said).toBe(
      'BackupProblem: The backup was not made: there is no room left on that disk.',
    );
    expect(readdirSync(join(place, 'backup'))).toEqual([]);
    remove?.();
  });
});

async function cutShort(to: string): Promise<never> {
  writeFileSync(to, 'half of a store');
  throw Object.assign(new Error('database or disk is full'), { errcode: 13 });
}

/** A disk of 128 kB, which is less than an empty store, where this user may make one. */
function smallPlace(): { place: string; remove: (() => void) | null } {
  const place = mkdtempSync(join(tmpdir(), 'small-disk-'));
  try {
    execFileSync('mount', ['-t', 'tmpfs', '-o', 'size=128k', 'tmpfs', place], { stdio: 'ignore' });
  } catch {
    return { place, remove: null };
  }
  return {
    place,
    remove: () => {
      execFileSync('umount', ['-l', place]);
      rmSync(place, { recursive: true });
    },
  };
}
