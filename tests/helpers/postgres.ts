import { execFileSync, spawn, spawnSync } from 'node:child_process';
import { randomBytes } from 'node:crypto';
import { chownSync, existsSync, mkdtempSync, readdirSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { Client } from 'pg';
import { freePort } from './free-port.ts';

/** A PostgreSQL cluster that runs, and the address of somebody who may make databases in it. */
export type Cluster = {
  readonly url: string;
  /** where it lies; belongs to the user it runs as */
  readonly folder: string;
  /** Stops it as a power cut would, and starts it again with the same data. */
  readonly crash: () => void;
  readonly start: () => void;
  readonly stop: () => void;
};

const DEBIAN = '/usr/lib/postgresql';

/** Folder of the server's programs: Debian keeps them off the path, newest version last. */
function findPrograms(): string | null {
  const versions = existsSync(DEBIAN)
    ? readdirSync(DEBIAN).sort((one, other) => Number(one) - Number(other))
    : [];
  const folders = [
    ...versions.reverse().map((version) => join(DEBIAN, version, 'bin')),
    ...(process.env['PATH'] ?? '').split(':'),
  ];
  return folders.find((folder) => existsSync(join(folder, 'initdb'))) ?? null;
}

/** The server refuses to run as root; Debian's package makes a user for it. Null where there is none. */
function findUser(): { uid: number; gid: number } | null | 'self' {
  if (process.getuid?.() !== 0) return 'self';
  const ask = (what: string) => spawnSync('id', [what, 'postgres'], { encoding: 'utf8' });
  const [uid, gid] = [ask('-u'), ask('-g')];
  return uid.status === 0 && gid.status === 0
    ? { uid: Number(uid.stdout), gid: Number(gid.stdout) }
    : null;
}

/** Whether a cluster can be had here: one that is given, or the programs to start one. */
export const hasPostgres = (): boolean =>
  process.env['TEST_DATABASE_URL'] !== undefined ||
  (findPrograms() !== null && findUser() !== null);

/** Said where tests are left out for want of it. */
export const NO_POSTGRES =
  'PostgreSQL is not installed, so its tests are left out; install Debian’s package postgresql, or give TEST_DATABASE_URL.';

/** Waits for the end of its input, which comes when whoever started it ends, however that is. */
const GUARD = `
const { spawnSync } = require('node:child_process');
const { rmSync } = require('node:fs');
const { program, data, folder, ...user } = JSON.parse(process.argv[1]);
process.stdin.resume().on('close', () => {
  spawnSync(program, ['-D', data, '-w', '-m', 'immediate', 'stop'], { cwd: '/', ...user });
  rmSync(folder, { recursive: true, force: true });
});`;

/** A process that tests ran in may be ended without a word; the server it started must not stay behind. */
function guard(of: Record<string, unknown>): void {
  const watching = spawn(process.execPath, ['-e', GUARD, JSON.stringify(of)], {
    stdio: ['pipe', 'ignore', 'ignore'],
    detached: true,
  });
  watching.unref();
  (watching.stdin as unknown as { unref: () => void }).unref();
}

/** Starts a cluster of its own in a temporary folder, on loopback, not as root, with every commit on the disk. */
export async function startCluster(): Promise<Cluster> {
  const programs = findPrograms();
  const user = findUser();
  if (programs === null || user === null) throw new Error(NO_POSTGRES);
  const folder = mkdtempSync(join(tmpdir(), 'postgres-test-'));
  if (user !== 'self') chownSync(folder, user.uid, user.gid);
  const data = join(folder, 'data');
  const run = (program: string, args: string[]) =>
    execFileSync(join(programs, program), args, {
      cwd: folder,
      stdio: ['ignore', 'ignore', 'pipe'],
      ...(user === 'self' ? {} : user),
    });
  run('initdb', ['-D', data, '-U', 'owner', '-A', 'trust', '-E', 'UTF8', '--locale', 'C.UTF-8']);
  const port = await freePort();
  const options = `-p ${port} -k ${folder} -c listen_addresses=127.0.0.1 -c max_connections=200`;
  const start = () =>
    void run('pg_ctl', ['-D', data, '-w', '-l', join(folder, 'log'), '-o', options, 'start']);
  const end = (mode: string) => void run('pg_ctl', ['-D', data, '-w', '-m', mode, 'stop']);
  start();
  guard({ program: join(programs, 'pg_ctl'), data, folder, ...(user === 'self' ? {} : user) });
  return {
    url: `postgres://owner@127.0.0.1:${port}/postgres`,
    folder,
    crash: () => end('immediate'),
    start,
    stop: () => {
      if (existsSync(join(data, 'postmaster.pid'))) end('fast');
      rmSync(folder, { recursive: true, force: true });
    },
  };
}

/** A database of its own, dropped at the end. */
export type TempDatabase = { readonly url: string; readonly remove: () => Promise<void> };

export async function runSql(url: string, ...texts: string[]): Promise<void> {
  const client = new Client({ connectionString: url });
  await client.connect();
  try {
    for (const text of texts) await client.query(text);
  } finally {
    await client.end();
  }
}

/** Makes an empty database in the cluster at `url`; `like` says how, in the words of `create database`. */
export async function makeDatabase(url: string, like = '', prefix = 'test'): Promise<TempDatabase> {
  const name = `${prefix}_${randomBytes(6).toString('hex')}`;
  await runSql(url, `create database ${name} ${like}`);
  const own = new URL(url);
  own.pathname = `/${name}`;
  return {
    url: own.href,
    remove: () => runSql(url, `drop database if exists ${name} with (force)`),
  };
}

let shared: Promise<Cluster> | undefined;

/** The cluster of this test process: the one given by TEST_DATABASE_URL, or one started now and stopped at the end. */
export async function clusterUrl(): Promise<string> {
  const given = process.env['TEST_DATABASE_URL'];
  if (given !== undefined) return given;
  shared ??= startCluster().then((cluster) => {
    process.once('exit', () => cluster.stop());
    return cluster;
  });
  return (await shared).url;
}

export const sharedDatabase = async (): Promise<TempDatabase> => makeDatabase(await clusterUrl());
