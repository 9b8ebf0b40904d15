import { mkdtempSync, readdirSync, readFileSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join, resolve } from 'node:path';
import { DatabaseSync } from 'node:sqlite';
import { Client } from 'pg';
import {
  acceptInvitation,
  createOrganisation,
  invite,
  type Outcome,
  openSite,
  peopleOf,
  type Role,
  type Site,
  signIn,
  type Viewer,
  viewerOf,
} from '../../src/accounts/index.ts';
import { asSite, type PostgresPlace } from '../../src/store/index.ts';
import { TABLE_NAMES } from '../../src/store/walls.ts';
import { askByDefault } from '../helpers/asked-by-default.ts';
import { hasPostgres, NO_POSTGRES, runSql } from '../helpers/postgres.ts';
import { takePrepared } from '../store/prepared.ts';

export type TempSite = {
  readonly site: Site;
  readonly dataDir: string;
  /** where its tables are, when that is PostgreSQL */
  readonly database: PostgresPlace | null;
  /** Whether a text is kept anywhere: in a byte of any file, or on PostgreSQL in any row. */
  readonly holds: (text: string) => Promise<boolean>;
  /** Changes rows as somebody with rights to everything can, past what guards them. */
  readonly tamper: (...statements: readonly string[]) => Promise<void>;
  readonly remove: () => Promise<void>;
};

export const PASSWORD = 'twelve or more';
const CONTENT = resolve(import.meta.dirname, '../../content');

/**
 * A whole site on a real data folder of its own, on SQLite; on PostgreSQL in the second run of the files that
 * `tests/vitest.config.ts` runs on both.
 */
export const makeTempSite = (address = 'http://localhost'): Promise<TempSite> =>
  process.env['TEST_STORE_ON'] === 'postgresql'
    ? makePostgresSite(address)
    : makeSqliteSite(address);

const hashes = new Map<string, Promise<string>>();

/** Hashes each password once for all people of this process, at the full cost: a test makes hundreds of them. */
async function hashOnce({ auth }: Site): Promise<void> {
  const { password } = await auth.$context;
  const { hash } = password;
  password.hash = (text) => {
    const made = hashes.get(text) ?? hash(text);
    hashes.set(text, made);
    return made;
  };
}

/** One whose people each get a hash of their own, as they do in earnest. */
export async function makeSaltingSite(address = 'http://localhost'): Promise<TempSite> {
  const dataDir = mkdtempSync(join(tmpdir(), 'site-test-'));
  const site = await openSite({ dataDir, contentDir: CONTENT, address: new URL(address) });
  return {
    site,
    dataDir,
    database: null,
    async holds(text) {
      return readdirSync(dataDir).some((file) => readFileSync(join(dataDir, file)).includes(text));
    },
    async tamper(...statements) {
      const file = new DatabaseSync(join(dataDir, 'store.sqlite'));
      const guards = file.prepare("select name from sqlite_master where type = 'trigger'").all();
      for (const { name } of guards) file.exec(`drop trigger "${name}"`);
      for (const statement of statements) file.exec(statement);
      file.close();
    },
    remove: async () => {
      await site.store.close();
      rmSync(dataDir, { recursive: true, force: true });
    },
  };
}

async function makeSqliteSite(address?: string): Promise<TempSite> {
  const made = await makeSaltingSite(address);
  await hashOnce(made.site);
  return made;
}

/** The same with its tables in a PostgreSQL database of its own, behind the walls. */
export async function makePostgresSite(address = 'http://localhost'): Promise<TempSite> {
  const dataDir = mkdtempSync(join(tmpdir(), 'site-test-'));
  const { place, rootUrl, giveBack } = await takePrepared();
  askByDefault('site');
  const at = { dataDir, contentDir: CONTENT, address: new URL(address) };
  const site = await openSite({ ...at, database: place });
  return {
    site,
    dataDir,
    database: place,
    holds: (text) => isInRows(rootUrl, text),
    // a role above the rules, in a session in which no trigger answers
    tamper: (...statements) =>
      runSql(rootUrl, 'set session_replication_role = replica', ...statements),
    remove: async () => {
      await site.store.close();
      await giveBack();
      rmSync(dataDir, { recursive: true, force: true });
    },
  };
}

async function isInRows(rootUrl: string, text: string): Promise<boolean> {
  const client = new Client({ connectionString: rootUrl });
  await client.connect();
  try {
    for (const table of TABLE_NAMES) {
      const { rows } = await client.query(
        `select from "${table}" as one where strpos(one::text, $1) > 0 limit 1`,
        [text],
      );
      if (rows.length > 0) return true;
    }
    return false;
  } finally {
    await client.end();
  }
}

/** The engines on which a whole site is tried. */
export const SITES: [string, () => Promise<TempSite>][] = [['SQLite', () => makeSqliteSite()]];
if (hasPostgres()) SITES.push(['PostgreSQL', () => makePostgresSite()]);
else console.warn(NO_POSTGRES);

/**
 * A temporary site with the people of one workshop: a trainer, two trainees and an employer. From here on the
 * workshop asks the database, as its people do on a page.
 */
export async function makeWorkshop() {
  const { site, remove } = await makeTempSite();
  const trainer = await setUp(site);
  const mira = await addMember(site, trainer, 'trainee', 'Mira Holt');
  const tom = await addMember(site, trainer, 'trainee', 'Tom Okafor');
  const boss = await addMember(site, trainer, 'employer', 'Anna Weir');
  askByDefault(trainer);
  return { site, remove, trainer, mira, tom, boss };
}

export function granted<Value>(outcome: Outcome<Value>): Value {
  if (!outcome.ok) throw new Error(outcome.refusal.message);
  return outcome.value;
}

export function refused<Value>(outcome: Outcome<Value>) {
  if (outcome.ok) throw new Error(`granted: ${JSON.stringify(outcome.value)}`);
  return outcome.refusal;
}

/** What a browser sends back for these Set-Cookie headers. */
export function cookieHeader(cookies: readonly string[]): string {
  return cookies.map((cookie) => cookie.split(';', 1)[0]).join('; ');
}

export function requestWith(cookies: readonly string[] = []): Request {
  const headers = new Headers();
  if (cookies.length > 0) headers.set('cookie', cookieHeader(cookies));
  return new Request('http://localhost/', { headers });
}

/** The first trainer of a new organisation. */
export async function setUp(site: Site): Promise<Viewer> {
  const { org, person } = granted(
    await createOrganisation(
      {
        organisation: 'Test Shop',
        name: 'First Trainer',
        email: 'first@x.example',
        password: PASSWORD,
      },
      'real',
      site,
    ),
  );
  return viewer({ org, person, name: 'First Trainer', email: 'first@x.example', role: 'trainer' });
}

function viewer(of: Omit<Viewer, 'signedInAt'>): Viewer {
  return { ...of, signedInAt: new Date().toISOString() };
}

/** Invites somebody and lets them join. */
export async function addMember(
  site: Site,
  trainer: Viewer,
  role: Role,
  name: string = role,
): Promise<Viewer> {
  const { path } = granted(await asSite(() => invite(trainer, { role, name }, site)));
  const email = `${name.replaceAll(' ', '.').toLowerCase()}@x.example`;
  const token = tokenOf(path);
  const joined = granted(
    await asSite(() => acceptInvitation(token, { name, email, password: PASSWORD }, site)),
  );
  const known = (await asSite(() => peopleOf(trainer.org, site))).find(
    (one) => one.person === joined.person,
  );
  if (known === undefined) throw new Error('joined, but not among the people');
  return viewer({ org: trainer.org, person: joined.person, name, email, role: known.role });
}

export const tokenOf = (path: string): string => path.slice(path.lastIndexOf('/') + 1);

/** Signs in as a browser does and returns the cookies it was given. */
export async function signInAs(site: Site, email: string): Promise<readonly string[]> {
  const input = { email, password: PASSWORD };
  return granted(await asSite(() => signIn(requestWith(), input, '192.0.2.1', site)));
}

export async function viewerWith(site: Site, cookies: readonly string[]): Promise<Viewer | null> {
  return asSite(() => viewerOf(requestWith(cookies), site));
}
