import { type ChildProcess, spawn } from 'node:child_process';
import { cpSync, existsSync, mkdtempSync, readFileSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join, resolve } from 'node:path';
import { DatabaseSync } from 'node:sqlite';
import { Client } from 'pg';
import type { PostgresPlace } from '../../src/store/index.ts';
import { makeTwoRoles } from '../store/two-roles.ts';
import { freePort } from './free-port.ts';

const ROOT = resolve(import.meta.dirname, '../..');

/** One passphrase for every invented person, so that a test can sign in as any of them. */
export const DEMO_PASSWORD = 'ripping fence and riving knife';

export type Site = {
  readonly url: string;
  readonly data: string;
  /** where its tables are, when that is PostgreSQL */
  readonly database: PostgresPlace | null;
  /** Changes rows as somebody with rights to everything can, past what guards them; says how many. */
  readonly tamper: (statement: string) => Promise<number>;
  /** ms from starting the process to the first page, by the clock */
  readonly startedIn: number;
  /** ms the processor worked for it until then; null where the system does not tell */
  readonly workedFor: number | null;
  /** number of the process that runs now */
  readonly pid: () => number | undefined;
  readonly stop: () => Promise<void>;
  /** Ends the process and leaves its store; `resume` starts it again at the same address. */
  readonly pause: () => Promise<void>;
  readonly resume: () => Promise<void>;
};

async function waitForPage(url: string, child: ChildProcess): Promise<void> {
  const giveUp = Date.now() + 120_000;
  while (Date.now() < giveUp) {
    if (child.exitCode !== null) throw new Error(`the site stopped with ${child.exitCode}`);
    const reply = await fetch(url).catch(() => null);
    if (reply?.ok) return;
    await new Promise((wake) => setTimeout(wake, 20));
  }
  throw new Error('the site did not answer in time');
}

/**
 * Starts the built site by its own command on an empty store in a temporary folder, filled with
 * the invented workshop or by a function when asked, and takes it down again.
 */
export async function startSite(
  fill: 'empty' | 'demo' | ((data: string) => Promise<void>) = 'empty',
  // the same walks on PostgreSQL, behind its walls: TEST_SITE_ON=postgresql
  engine = process.env['TEST_SITE_ON'] ?? 'sqlite',
): Promise<Site> {
  const data = mkdtempSync(join(tmpdir(), 'signed-to-saw-'));
  const port = await freePort();
  const roles = engine === 'postgresql' ? await makeTwoRoles() : null;
  const env = {
    ...process.env,
    ...(roles === null
      ? {}
      : { DATABASE_URL: roles.place.url, DATABASE_OWNER_URL: roles.place.ownerUrl }),
    DATA_DIR: data,
    PORT: String(port),
    HOST: '127.0.0.1',
    DEMO_PASSWORD,
  };
  if (fill === 'demo') await fillWithDemo(data, env);
  else if (fill !== 'empty') await fill(data);
  const started = performance.now();
  const url = `http://127.0.0.1:${port}`;
  let child = await startProcess(url, env);
  const startedIn = performance.now() - started;
  const workedFor = processorTime(child.pid);
  return {
    url,
    data,
    database: roles?.place ?? null,
    tamper: async (statement) =>
      roles === null
        ? tamperWithFile(join(data, 'store.sqlite'), statement)
        : tamperWithRows(roles.rootUrl, statement),
    startedIn,
    workedFor,
    pid: () => child.pid,
    stop: async () => {
      await endProcess(child);
      await roles?.remove();
      rmSync(data, { recursive: true, force: true });
    },
    pause: () => endProcess(child),
    resume: async () => {
      child = await startProcess(url, env);
    },
  };
}

/**
 * The invented workshop made once, for all files of a run to take a copy of. Playwright calls it before the first test, and
 * what it returns after the last.
 */
export default async function makeDemoOnce(): Promise<() => void> {
  const made = mkdtempSync(join(tmpdir(), 'signed-to-saw-demo-'));
  await runToEnd('src/cli/demo.ts', { ...process.env, DATA_DIR: made, DEMO_PASSWORD });
  process.env['TEST_DEMO_WORKSHOP'] = made;
  return () => rmSync(made, { recursive: true, force: true });
}

async function fillWithDemo(data: string, env: NodeJS.ProcessEnv): Promise<void> {
  const made = process.env['TEST_DEMO_WORKSHOP'];
  // a copy of files is a workshop on SQLite alone
  if (made === undefined || env['DATABASE_URL']) {
    await runToEnd('src/cli/demo.ts', env);
  } else cpSync(made, data, { recursive: true });
}

/** The guards are put back, so that nothing but the row tells of it. */
function tamperWithFile(path: string, statement: string): number {
  const file = new DatabaseSync(path);
  const guards = file.prepare("select name, sql from sqlite_master where type = 'trigger'").all();
  for (const { name } of guards) file.exec(`drop trigger "${name}"`);
  const { changes } = file.prepare(statement).run();
  for (const { sql } of guards) file.exec(String(sql));
  file.close();
  return Number(changes);
}

/** A role above the rules, in a session in which no trigger answers. */
async function tamperWithRows(rootUrl: string, statement: string): Promise<number> {
  const client = new Client({ connectionString: rootUrl });
  await client.connect();
  try {
    await client.query('set session_replication_role = replica');
    return (await client.query(statement)).rowCount ?? 0;
  } finally {
    await client.end();
  }
}

async function startProcess(url: string, env: NodeJS.ProcessEnv): Promise<ChildProcess> {
  const child = spawn(process.execPath, ['src/cli/start.ts'], { cwd: ROOT, env, stdio: 'pipe' });
  let printed = '';
  for (const stream of [child.stdout, child.stderr]) {
    stream?.on('data', (chunk: Buffer) => {
      printed += chunk.toString();
    });
  }
  await waitForPage(`${url}/`, child).catch((error: Error) => {
    throw new Error(`${error.message}; it printed: ${printed}`);
  });
  return child;
}

async function endProcess(child: ChildProcess): Promise<void> {
  if (child.exitCode !== null || child.signalCode !== null) return;
  const ended = new Promise((done) => child.once('exit', done));
  child.kill('SIGTERM');
  await ended;
}

/** ms of processor time, user and system, of a running process: Linux keeps it in hundredths. */
function processorTime(pid: number | undefined): number | null {
  const file = `/proc/${pid}/stat`;
  if (pid === undefined || !existsSync(file)) return null;
  const [, rest = ''] = readFileSync(file, 'utf8').split(') ');
  const fields = rest.split(' ');
  return (Number(fields[11]) + Number(fields[12])) * 10;
}

async function runToEnd(file: string, env: NodeJS.ProcessEnv): Promise<void> {
  const child = spawn(process.execPath, [file], { cwd: ROOT, env, stdio: 'pipe' });
  let printed = '';
  child.stdout.on('data', (chunk: Buffer) => {
    printed += chunk.toString();
  });
  child.stderr.on('data', (chunk: Buffer) => {
    printed += chunk.toString();
  });
  const code = await new Promise<number | null>((done) => child.once('exit', done));
  if (code !== 0) throw new Error(`${file} ended with ${code}: ${printed}`);
}
