import { existsSync } from 'node:fs';
import { Kysely, sql } from 'kysely';
import { migrateToLatest } from './migrate.ts';
import { postgresDialect } from './postgres-dialect.ts';
import { StoreUnusable } from './problems.ts';
import type { Tables } from './tables.ts';
import { raiseWalls } from './walls.ts';

/** A PostgreSQL database. `ownerUrl`: the same one, as the role that its tables belong to. */
export type PostgresPlace = { readonly url: string; readonly ownerUrl?: string | undefined };

/** https://www.postgresql.org/docs/15/errcodes-appendix.html: insufficient_privilege */
const NOT_ALLOWED = '42501';

const codeOf = (error: unknown): unknown =>
  error instanceof Error && 'code' in error ? error.code : undefined;

async function roleOf(db: Kysely<Tables>): Promise<string> {
  const { rows } = await sql<{ role: string }>`select current_user as role`.execute(db);
  return rows[0]?.role ?? '';
}

/** Makes or updates the tables, triggers, walls and rights, by the owner where one is given. */
export async function preparePostgres(db: Kysely<Tables>, place: PostgresPlace): Promise<void> {
  if (place.ownerUrl === undefined) {
    try {
      await migrateToLatest(db);
      await raiseWalls(db, null);
    } catch (error) {
      if (codeOf(error) !== NOT_ALLOWED) throw error;
      // the owner has been here before: its marks are only not those of this role alone
      if (await isReadyForRole(db)) return;
      throw new StoreUnusable(
        'The role in DATABASE_URL may not make or update the tables; start once with DATABASE_OWNER_URL, the role they belong to.',
      );
    }
    return;
  }
  const owner = new Kysely<Tables>({ dialect: postgresDialect(place.ownerUrl) });
  try {
    const [role, ownerRole] = [await roleOf(db), await roleOf(owner)];
    await migrateToLatest(owner);
    await raiseWalls(owner, role === ownerRole ? null : role);
  } finally {
    await owner.destroy();
  }
}

/** Whether the tables stand behind walls that this role did not build: then it need not own them. */
async function isReadyForRole(db: Kysely<Tables>): Promise<boolean> {
  const { rows } = await sql<{ own: boolean; walled: boolean }>`
    select pg_has_role(relowner, 'usage') as own, relforcerowsecurity as walled
    from pg_class where oid = to_regclass('event')`.execute(db);
  return rows[0] !== undefined && !rows[0].own && rows[0].walled;
}

/**
 * What the database itself does not hold against the role the site runs as, in sentences for whoever starts it;
 * none where it runs as a plain role that owns nothing.
 */
export async function listUnprotected(db: Kysely<Tables>): Promise<string[]> {
  const { rows } = await sql<{ all: boolean; owner: boolean }>`
    select (rolsuper or rolbypassrls) as all,
      pg_has_role((select relowner from pg_class where oid = 'event'::regclass), 'usage') as owner
    from pg_roles where rolname = current_user`.execute(db);
  const rights = rows[0];
  if (rights?.all === true) {
    return [
      'The role in DATABASE_URL is above all rules of the database: walls between workshops do not hold it, and it can take the protection off the log; give a plain role in DATABASE_URL and the owner in DATABASE_OWNER_URL.',
    ];
  }
  if (rights?.owner === true) {
    return [
      'The role in DATABASE_URL owns the tables, so whoever gets hold of it can take the protection off the log; give a plain role in DATABASE_URL and the owner in DATABASE_OWNER_URL.',
    ];
  }
  return [];
}

/** Whether there is a log at this place already, so that its key must be there too. */
export async function holdsLog(place: PostgresPlace | { readonly file: string }): Promise<boolean> {
  if ('file' in place) return existsSync(place.file);
  // rights are no part of a backup: after a restore the role of the site may not look until the owner gave it some
  const db = new Kysely<Tables>({ dialect: postgresDialect(place.ownerUrl ?? place.url) });
  try {
    const { rows } = await sql<{ there: boolean }>`
      select to_regclass('log_head') is not null as there`.execute(db);
    if (rows[0]?.there !== true) return false;
    return (await db.selectFrom('log_head').select('size').executeTakeFirst()) !== undefined;
  } catch (error) {
    if (codeOf(error) !== NOT_ALLOWED) throw error;
    return true;
  } finally {
    await db.destroy();
  }
}
