import { execFileSync } from 'node:child_process';
import { chmodSync, mkdirSync, mkdtempSync, readdirSync, rmSync, writeFileSync } from 'node:fs';
import { createServer, type Server } from 'node:net';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterEach, beforeEach, describe, expect, it } from 'vitest';
import { getSite, needsSetUp, useSite } from '../../src/accounts/index.ts';
import { CannotStart, runSite, type Settings } from '../../src/server/index.ts';
import { makeFixtureDist } from './fixture-dist.ts';
import { send } from './temp-server.ts';

let folder: string;
let distDir: string;
beforeEach(() => {
  folder = mkdtempSync(join(tmpdir(), 'run-site-test-'));
  distDir = makeFixtureDist(folder);
});
afterEach(() => {
  useSite(null);
  rmSync(folder, { recursive: true, force: true });
});

const settings = (over: Partial<Settings> = {}): Settings => ({
  port: 0,
  host: '127.0.0.1',
  dataDir: join(folder, 'data'),
  siteUrl: null,
  ...over,
});
const start = (over: Partial<Settings> = {}) =>
  runSite(settings(over), { distDir, contentDir: 'content' });
const failure = async (over: Partial<Settings> = {}): Promise<Error> =>
  start(over).then(
    () => new Error('it started'),
    (error: Error) => error,
  );

async function occupyPort(): Promise<{ server: Server; port: number }> {
  const server = createServer();
  await new Promise<void>((resolve) => server.listen(0, '127.0.0.1', resolve));
  const address = server.address();
  return { server, port: typeof address === 'object' && address !== null ? address.port : 0 };
}

describe('the site', () => {
  it('makes its store and key on a clean start, serves, and keeps them', async () => {
    const site = await start();
    expect(readdirSync(join(folder, 'data')).sort()).toEqual(
      expect.arrayContaining(['site-key.json', 'store.sqlite']),
    );
    expect((await send(Number(site.address.port), '/')).status).toBe(200);
    expect(await needsSetUp()).toBe(true);
    const { keyId } = (await getSite()).siteKey;
    await site.stop();
    useSite(null);
    const again = await start();
    expect((await getSite()).siteKey.keyId).toBe(keyId);
    await again.stop();
    // Everything is in the one file when the site has stopped.
    expect(readdirSync(join(folder, 'data')).sort()).toEqual(['site-key.json', 'store.sqlite']);
  });

  it('says in one sentence that its port is taken, and loses nothing', async () => {
    const { server, port } = await occupyPort();
    const error = await failure({ port });
    expect(error).toBeInstanceOf(CannotStart);
    expect(error.message).toBe(
      `Port ${port} on 127.0.0.1 is taken by another program; stop that program or set PORT to another number from 1024 to 65535.`,
    );
    await new Promise((resolve) => server.close(resolve));
    useSite(null);
    await (await start({ port })).stop();
  });

  it('says in one sentence that it has no such address', async () => {
    // RFC 5737: 192.0.2.0/24 belongs to no machine
    const { message } = await failure({ host: '192.0.2.1' });
    expect(message).toMatch(/^HOST 192\.0\.2\.1 is not an address of this machine; .*\.$/);
  });

  it('says in one sentence that there is no built site', async () => {
    rmSync(join(distDir, 'server'), { recursive: true });
    expect((await failure()).message).toMatch(
      /^There is no built site in .*; run npm run build\.$/,
    );
  });

  it('says in one sentence that its data folder is a file', async () => {
    writeFileSync(join(folder, 'data'), 'not a folder');
    const { name, message } = await failure();
    expect(name).toBe('CannotStart');
    expect(message).toMatch(/^The data folder .* cannot be used; .*set DATA_DIR to another folder/);
  });

  it('does not start beside a restore that was cut short', async () => {
    mkdirSync(join(folder, 'data', 'unfinished-restore'), { recursive: true });
    const { name, message } = await failure();
    expect(name).toBe('CannotStart');
    expect(message).toMatch(/^A restore into .* was cut short; empty that folder and restore/);
  });

  it('says in one sentence that its store is no database', async () => {
    await (await start()).stop();
    useSite(null);
    writeFileSync(join(folder, 'data', 'store.sqlite'), 'this was something else '.repeat(100));
    const { name, message } = await failure();
    expect(name).toBe('CannotStart');
    expect(message).toMatch(/cannot be used.*\(file is not a database\)/);
  });

  it.each([
    ['a folder nobody may write to', 0o555, /cannot be used; give this user the right to write/],
    ['a folder everybody may write to', 0o777, /^started$/m],
  ])('started by anybody in %s: %#', (_name, mode, expected) => {
    chmodSync(folder, 0o755);
    const dataDir = join(folder, 'shared');
    mkdirSync(dataDir);
    chmodSync(dataDir, mode);
    const printed = execFileSync(
      process.execPath,
      [join(import.meta.dirname, 'start-unprivileged.ts'), dataDir, distDir],
      { encoding: 'utf8' },
    );
    expect(printed).toMatch(expected);
    expect(printed).not.toMatch(/\n\s+at /);
  });
});
