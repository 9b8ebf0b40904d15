import { execFile, spawnSync } from 'node:child_process';
import { mkdtempSync, readdirSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join, resolve } from 'node:path';
import { promisify } from 'node:util';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { asSite } from '../../src/store/index.ts';
import { SITES, type TempSite } from '../accounts/temp-site.ts';
import { SLOW } from '../store/temp-store.ts';

const run = promisify(execFile);

it.each(['tidy', 'unlock'])('%s makes no store where there is none', (name) => {
  const folder = mkdtempSync(join(tmpdir(), 'no-store-'));
  const file = resolve(import.meta.dirname, `../../src/cli/${name}.ts`);
  const env = { ...process.env, DATA_DIR: folder, DATABASE_URL: '', DATABASE_OWNER_URL: '' };
  const words = name === 'unlock' ? ['anna.weir@x.example'] : [];
  const { status, stderr } = spawnSync(process.execPath, [file, ...words], {
    encoding: 'utf8',
    env,
  });
  expect([status, stderr]).toEqual([2, `${folder} holds no store; set DATA_DIR.\n`]);
  expect(readdirSync(folder)).toEqual([]);
  rmSync(folder, { recursive: true });
});

describe.each(SITES)('tidying on %s', (_engine, makeSite) => {
  let temp: TempSite;
  beforeAll(async () => {
    temp = await makeSite();
  }, SLOW);
  afterAll(() => temp.remove(), SLOW);

  it('counts what is past its period, and erases it only when told to', async () => {
    const at = '2001-01-01T00:00:00.000Z';
    const old = { key: 'a', failures: 1, lastAt: at, blockedUntil: at };
    await asSite(() => temp.site.store.db.insertInto('sign_in_try').values(old).execute());
    const tidy = async (...words: string[]) => {
      const file = resolve(import.meta.dirname, '../../src/cli/tidy.ts');
      const env = {
        ...process.env,
        DATA_DIR: temp.dataDir,
        DATABASE_URL: temp.database?.url ?? '',
        DATABASE_OWNER_URL: temp.database?.ownerUrl ?? '',
      };
      return (await run(process.execPath, [file, ...words], { env })).stdout;
    };
    expect(await tidy()).toMatch(/ 1 {2}sign-in tickets and tries/);
    expect(await tidy('--do')).toMatch(/ 1 {2}sign-in tickets and tries/);
    expect(await tidy()).toMatch(/ 0 {2}sign-in tickets and tries/);
  }, 60_000);
});
