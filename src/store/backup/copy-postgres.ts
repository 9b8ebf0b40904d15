import { spawn } from 'node:child_process';
import { chmodSync, existsSync, readdirSync } from 'node:fs';
import { join } from 'node:path';
import { Client } from 'pg';
import { WHOLE_SITE } from '../asking.ts';
import { BackupProblem, sayReason } from './backup-problem.ts';
import type { BackupEngine, Copied } from './engine.ts';

const DUMP_FILE = 'store.dump';
/** Debian keeps the programs of each version in a folder of its own. */
const DEBIAN = '/usr/lib/postgresql';

/** A program of PostgreSQL, of the newest version there is. @throws BackupProblem */
function findProgram(name: 'pg_dump' | 'pg_restore'): string {
  const versions = existsSync(DEBIAN)
    ? readdirSync(DEBIAN).sort((one, other) => Number(other) - Number(one))
    : [];
  const folders = [
    ...versions.map((version) => join(DEBIAN, version, 'bin')),
    ...(process.env['PATH'] ?? '').split(':'),
  ];
  const folder = folders.find((one) => existsSync(join(one, name)));
  if (folder !== undefined) return join(folder, name);
  throw new BackupProblem(
    `${name} is not installed here; install the client programs of PostgreSQL (Debian: postgresql-client).`,
  );
}

/** The parts of an address as its programs read them, so that no password is in the list of processes. */
function addressInEnvironment(url: string): NodeJS.ProcessEnv {
  const { hostname, port, username, password, pathname, searchParams } = new URL(url);
  const parts = {
    PGHOST: decodeURIComponent(hostname).replace(/^\[|\]$/g, ''),
    PGPORT: port,
    PGUSER: decodeURIComponent(username),
    PGPASSWORD: decodeURIComponent(password),
    PGDATABASE: decodeURIComponent(pathname.slice(1)),
    PGSSLMODE: searchParams.get('sslmode') ?? '',
  };
  const given = Object.entries(parts).filter(([, value]) => value !== '');
  return {
    ...process.env,
    ...Object.fromEntries(given),
    // the whole site's rows: without it the walls between organisations show none
    PGOPTIONS: `-c app.org=${WHOLE_SITE}`,
  };
}

async function runProgram(
  name: 'pg_dump' | 'pg_restore',
  words: readonly string[],
  url: string,
): Promise<void> {
  const child = spawn(findProgram(name), words, {
    env: addressInEnvironment(url),
    stdio: ['ignore', 'ignore', 'pipe'],
  });
  let said = '';
  child.stderr.on('data', (some: Buffer) => {
    said = `${said}${some}`.slice(-4_000);
  });
  const code = await new Promise<number | null>((resolve, reject) => {
    child.once('error', reject);
    child.once('close', resolve);
  });
  if (code === 0) return;
  const full = /no space left on device/i.test(said);
  const reason = said.split('\n').find((line) => /error/i.test(line)) ?? `it ended with ${code}`;
  throw new BackupProblem(
    full
      ? 'The backup was not made: there is no room left on that disk.'
      : `${name} failed: ${reason.replace(/^\w+: (error: )?/, '').replace(/\.?\s*$/, '')}.`,
  );
}

async function withClient<Result>(
  url: string,
  work: (client: Client) => Promise<Result>,
): Promise<Result> {
  const client = new Client({ connectionString: url, connectionTimeoutMillis: 5_000 });
  // an end of the connection is told by the query that runs
  client.on('error', () => undefined);
  try {
    await client.connect();
  } catch (error) {
    throw new BackupProblem(`The database does not answer: ${sayReason(error)}.`);
  }
  try {
    return await work(client);
  } finally {
    await client.end().catch(() => undefined);
  }
}

/** The programs and our own look at the log see the same moment: they share one snapshot. */
async function copyDatabase(client: Client, url: string, to: string): Promise<Copied> {
  await client.query('begin isolation level repeatable read read only');
  const snapshot = await client.query('select pg_export_snapshot() as id');
  const head = await client.query('select size, root, note from log_head');
  const newest = await client.query('select name from kysely_migration order by name desc limit 1');
  const words = [
    '--format=custom',
    '--no-owner',
    '--no-privileges',
    // the role of the site stands before the walls as well, and is let through by what it says
    '--enable-row-security',
    `--snapshot=${snapshot.rows[0].id}`,
  ];
  await runProgram('pg_dump', [...words, `--file=${to}`], url);
  await client.query('commit');
  chmodSync(to, 0o600);
  const { size, root, note } = head.rows[0];
  return {
    log: {
      size: Number(size),
      root: Buffer.from(root, 'hex').toString('base64'),
      checkpoint: note,
    },
    tables: String(newest.rows[0]?.name ?? ''),
  };
}

const OWN_TABLES = 'select tablename from pg_tables where schemaname = current_schema()';

/** The store in a PostgreSQL database. */
export function postgresEngine(url: string): BackupEngine {
  return {
    name: 'postgresql',
    file: DUMP_FILE,
    copy: (to) => withClient(url, (client) => copyDatabase(client, url, to)),
    checkEmpty: () =>
      withClient(url, async (client) => {
        const { rows } = await client.query(OWN_TABLES);
        if (rows.length > 0) {
          throw new BackupProblem(
            'The database is not empty; set DATABASE_URL to one that was just made.',
          );
        }
      }),
    async load(from) {
      const words = ['--exit-on-error', '--single-transaction', '--no-owner', '--no-privileges'];
      const { pathname } = new URL(url);
      await runProgram('pg_restore', [...words, `--dbname=${pathname.slice(1)}`, from], url);
      return { url };
    },
    // it was empty before, so all that lies there now was restored
    clear: () =>
      withClient(url, async (client) => {
        const { rows } = await client.query(OWN_TABLES);
        for (const { tablename } of rows) {
          await client.query(`drop table if exists ${client.escapeIdentifier(tablename)} cascade`);
        }
      }).catch(() => undefined),
  };
}
