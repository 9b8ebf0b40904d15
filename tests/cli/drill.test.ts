import { execFile } from 'node:child_process';
import { mkdirSync, mkdtempSync, readdirSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join, resolve } from 'node:path';
import { promisify } from 'node:util';
import { sql } from 'kysely';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { openSite, peopleOf, type Viewer } from '../../src/accounts/index.ts';
import { makeBackup, restoreBackup } from '../../src/store/backup/index.ts';
import { asOrganisation, asSite } from '../../src/store/index.ts';
import {
  addMember,
  makePostgresSite,
  makeTempSite,
  setUp,
  type TempSite,
} from '../accounts/temp-site.ts';
import { clusterUrl, hasPostgres, makeDatabase, type TempDatabase } from '../helpers/postgres.ts';
import { asRole, PREPARED_ROLES } from '../store/prepared.ts';
import { SLOW } from '../store/temp-store.ts';

const run = promisify(execFile);
const COMMAND = resolve(import.meta.dirname, '../../src/cli/drill.ts');

describe('a workshop in a file', () => {
  let temp: TempSite;
  let within: string;
  beforeAll(async () => {
    temp = await makeTempSite();
    await setUp(temp.site);
    within = join(temp.dataDir, 'drills');
    mkdirSync(within);
  }, SLOW);
  afterAll(() => temp.remove(), SLOW);

  const drill = (more: NodeJS.ProcessEnv = {}) =>
    run(process.execPath, [COMMAND, '--data', temp.dataDir, '--in', within], {
      env: { ...process.env, DATABASE_URL: '', DATABASE_OWNER_URL: '', ...more },
    });

  it('is drilled where the site starts, and not where it does not; nothing is left of either', async () => {
    expect((await drill()).stdout).toMatch(/^The drill worked, in /m);
    expect(readdirSync(within)).toEqual([]);
    await expect(drill({ PERSON_REQUESTS_A_MINUTE: 'many' })).rejects.toMatchObject({
      code: 2,
      stderr: expect.stringMatching(/^The site did not start on what was restored/),
    });
    expect(readdirSync(within)).toEqual([]);
  }, 240_000);

  it('fails with the event that was altered, and leaves nothing', async () => {
    const { db } = temp.site.store;
    await sql`drop trigger event_refuses_update`.execute(db);
    await sql`update event set json = replace(json, '"version":1', '"version":2') where seq = 1`.execute(
      db,
    );
    await expect(drill()).rejects.toMatchObject({
      code: 2,
      stderr: expect.stringMatching(/^The log of this backup is not whole.*\(event 1: /),
    });
    expect(readdirSync(within)).toEqual([]);
  }, 240_000);
});

describe.skipIf(!hasPostgres())('a workshop in PostgreSQL, behind its walls', () => {
  let temp: TempSite;
  let trainer: Viewer;
  let folder: string;
  const empty: TempDatabase[] = [];
  beforeAll(async () => {
    temp = await makePostgresSite();
    folder = mkdtempSync(join(tmpdir(), 'drill-test-'));
    trainer = await asSite(() => setUp(temp.site));
    await addMember(temp.site, trainer, 'trainee', 'Mira Holt');
  }, SLOW);
  afterAll(async () => {
    await temp.remove();
    for (const one of empty) await one.remove();
    rmSync(folder, { recursive: true, force: true });
  }, SLOW);

  /** An empty database of the role that the tables belong to. */
  async function makeEmpty() {
    const made = await makeDatabase(await clusterUrl(), `owner ${PREPARED_ROLES.owner}`);
    empty.push(made);
    const of = (role: keyof typeof PREPARED_ROLES) => asRole(made.url, PREPARED_ROLES[role]);
    return { url: of('site'), ownerUrl: of('owner') };
  }

  it('is drilled by its own command into an empty database', async () => {
    const into = await makeEmpty();
    const env = {
      ...process.env,
      DATA_DIR: temp.dataDir,
      DATABASE_URL: temp.database?.url,
      DATABASE_OWNER_URL: temp.database?.ownerUrl,
    };
    const words = [COMMAND, '--in', folder, '--into', into.ownerUrl];
    const { stdout } = await run(process.execPath, words, { env });
    const { head } = await asSite(() =>
      temp.site.store.db.selectFrom('log_head').select('size as head').executeTakeFirstOrThrow(),
    );
    expect(stdout).toMatch(new RegExp(`^backup .* ${head} events`, 'm'));
    expect(stdout).toMatch(new RegExp(`^start .* /api/health ok, ${head} events$`, 'm'));
    expect(stdout).toMatch(/^The drill worked, in /m);
  }, 240_000);

  it(
    'has all its people where it was restored, and its walls and guards',
    async () => {
      const place = await makeEmpty();
      const dataDir = join(folder, 'data');
      const from = { dataDir: temp.dataDir, folder: join(folder, 'backup') };
      const now = new Date();
      const databaseUrl = temp.database?.ownerUrl ?? '';
      await makeBackup({ ...from, databaseUrl, version: '0.0.1', now });
      await restoreBackup({ folder: from.folder, dataDir, databaseUrl: place.ownerUrl });
      const address = new URL('http://localhost');
      const site = await openSite({ dataDir, contentDir: 'content', address, database: place });
      try {
        const see = () => peopleOf(trainer.org, site);
        const people = await asOrganisation(trainer.org, see);
        expect(people.map(({ name }) => name).sort()).toEqual(['First Trainer', 'Mira Holt']);
        expect(await asOrganisation('another', see)).toEqual([]);
        const change = site.store.db.updateTable('event').set({ json: '{}' });
        await expect(asSite(() => change.execute())).rejects.toThrow('permission denied');
      } finally {
        await site.store.close();
      }
    },
    SLOW,
  );
});
