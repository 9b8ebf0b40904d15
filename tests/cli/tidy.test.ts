import { execFile } from 'node:child_process';
import { mkdtemp, rm } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import { join, resolve } from 'node:path';
import { promisify } from 'node:util';
import { expect, it } from 'vitest';
import { asSite, openSiteKey, openStore } from '../../src/store/index.ts';

const run = promisify(execFile);

it('counts what is past its period, and erases it only when told to', async () => {
  const dir = await mkdtemp(join(tmpdir(), 'tidy-'));
  try {
    const key = await openSiteKey(join(dir, 'site-key.json'), false);
    const store = await openStore({ file: join(dir, 'store.sqlite') }, key);
    const at = '2001-01-01T00:00:00.000Z';
    const old = { key: 'a', failures: 1, lastAt: at, blockedUntil: at };
    await asSite(() => store.db.insertInto('sign_in_try').values(old).execute());
    await store.close();
    const tidy = async (...words: string[]) => {
      const file = resolve(import.meta.dirname, '../../src/cli/tidy.ts');
      const env = { ...process.env, DATA_DIR: dir, DATABASE_URL: '' };
      return (await run(process.execPath, [file, ...words], { env })).stdout;
    };
    expect(await tidy()).toMatch(/ 1 {2}sign-in tickets and tries/);
    expect(await tidy('--do')).toMatch(/ 1 {2}sign-in tickets and tries/);
    expect(await tidy()).toMatch(/ 0 {2}sign-in tickets and tries/);
  } finally {
    await rm(dir, { recursive: true });
  }
}, 60_000);
