import { createHash } from 'node:crypto';
import { readdirSync, readFileSync } from 'node:fs';
import { join, resolve } from 'node:path';
import { Kysely } from 'kysely';
import { Client } from 'pg';
import type { PostgresPlace, Tables } from '../../src/store/index.ts';
import { preparePostgres } from '../../src/store/open-postgres.ts';
import { postgresDialect } from '../../src/store/postgres-dialect.ts';
import { TABLE_NAMES } from '../../src/store/walls.ts';
import { clusterUrl, makeDatabase, runSql, type TempDatabase } from '../helpers/postgres.ts';

/** A database with every table and wall and no row, for the site's plain role, and the way to give it back. */
export type Prepared = {
  readonly place: PostgresPlace & { readonly ownerUrl: string };
  /** as somebody above all rules */
  readonly rootUrl: string;
  /** Empties it for whoever comes next in this process; close every connection of the site before. */
  readonly giveBack: () => Promise<void>;
};

/** What copies are called in this run, so that its end can find them. */
export const COPIES = 'TEST_COPIES';
/** Whom the tables belong to, and as whom the site runs. */
export const PREPARED_ROLES = { owner: 'prepared_owner', site: 'prepared_site' } as const;
const { owner: OWNER, site: SITE } = PREPARED_ROLES;
const STORE = resolve(import.meta.dirname, '../../src/store');

/** A template made by other migrations or walls than today's is not today's. */
function templateName(): string {
  const hash = createHash('sha256');
  for (const folder of [STORE, join(STORE, 'migrations')]) {
    const files = readdirSync(folder).filter((one) => one.endsWith('.ts'));
    for (const file of files.sort()) hash.update(readFileSync(join(folder, file)));
  }
  return `prepared_${hash.digest('hex').slice(0, 12)}`;
}

export function asRole(url: string, role: string): string {
  const own = new URL(url);
  own.username = role;
  return own.href;
}

function inDatabase(url: string, name: string): string {
  const own = new URL(url);
  own.pathname = `/${name}`;
  return own.href;
}

async function makeTemplate(url: string, name: string, client: Client): Promise<void> {
  for (const role of [OWNER, SITE]) {
    const { rowCount } = await client.query('select from pg_roles where rolname = $1', [role]);
    if (rowCount === 0) await client.query(`create role ${role} login`);
    // nothing here pulls a plug, and waiting for the disk at each commit is most of the time
    await client.query(`alter role ${role} set synchronous_commit = off`);
  }
  await client.query(`drop database if exists ${name} with (force)`);
  await client.query(`create database ${name} owner ${OWNER}`);
  const own = inDatabase(url, name);
  await runSql(own, `alter schema public owner to ${OWNER}`);
  const place = { url: asRole(own, SITE), ownerUrl: asRole(own, OWNER) };
  const db = new Kysely<Tables>({ dialect: postgresDialect(place.url) });
  await preparePostgres(db, place).finally(() => db.destroy());
  await client.query(`alter database ${name} is_template true`);
}

/** Migrated once in a cluster, whichever of the test processes comes first; the others wait for it and copy. */
async function findTemplate(url: string): Promise<string> {
  const name = templateName();
  const client = new Client({ connectionString: url });
  await client.connect();
  try {
    await client.query(`select pg_advisory_lock(hashtext('${name}'))`);
    const { rowCount } = await client.query(
      'select from pg_database where datname = $1 and datistemplate',
      [name],
    );
    if (rowCount === 0) await makeTemplate(url, name, client);
    return name;
  } finally {
    await client.end();
  }
}

/** Used before in this process and empty again. They are dropped at the end of the run: it is slow. */
const free: TempDatabase[] = [];

async function copyTemplate(): Promise<TempDatabase> {
  const url = await clusterUrl();
  const like = `template ${await findTemplate(url)} owner ${OWNER}`;
  return makeDatabase(url, like, process.env[COPIES]);
}

/** Rows alone, past the triggers of the append-only tables: many times quicker than another database. */
async function empty(url: string): Promise<void> {
  const all = TABLE_NAMES.map((name) => `delete from "${name}"`);
  await runSql(url, ['set session_replication_role = replica', ...all].join(';'));
}

/** A prepared database that nobody else uses: one this process used before, or a copy of the template. */
export async function takePrepared(): Promise<Prepared> {
  const database = free.pop() ?? (await copyTemplate());
  return {
    rootUrl: database.url,
    place: { url: asRole(database.url, SITE), ownerUrl: asRole(database.url, OWNER) },
    async giveBack() {
      await empty(database.url);
      free.push(database);
    },
  };
}
