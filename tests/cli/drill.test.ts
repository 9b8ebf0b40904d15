import { execFile } from 'node:child_process';
import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join, resolve } from 'node:path';
import { promisify } from 'node:util';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { openSite, peopleOf, type Viewer } from '../../src/accounts/index.ts';
import { makeBackup, restoreBackup } from '../../src/store/backup/index.ts';
import { asOrganisation, asSite } from '../../src/store/index.ts';
import { addMember, makePostgresSite, setUp, type TempSite } from '../accounts/temp-site.ts';
import { clusterUrl, hasPostgres, makeDatabase, type TempDatabase } from '../helpers/postgres.ts';
import { asRole, PREPARED_ROLES } from '../store/prepared.ts';
import { SLOW } from '../store/temp-store.ts';

const run = promisify(execFile);

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
    const command = resolve(import.meta.dirname, '../../src/cli/drill.ts');
    const env = {
      ...process.env,
      DATA_DIR: temp.dataDir,
      DATABASE_URL: temp.database?.url,
      DATABASE_OWNER_URL: temp.database?.ownerUrl,
    };
    const words = [command, '--in', folder, '--into', into.ownerUrl];
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
