import { createHash } from 'node:crypto';
import { type Kysely, sql } from 'kysely';
import { WHOLE_SITE } from './asking.ts';
import type { Tables } from './tables.ts';

/**
 * What keeps the rows of one organisation from another, table by table: the column that names it (`org`), the
 * person it belongs to (`person`), the group (`group`), the site alone (`site`), or nothing (`open`), which is for
 * hashes that tell nobody anything.
 */
type Wall = { readonly by: 'org' | 'person' | 'group'; readonly column: string } | 'site' | 'open';

/** In an order in which rows can be added: those that others refer to come first. */
const WALLS: Readonly<Record<keyof Tables | 'verification', Wall>> = {
  organisation: { by: 'org', column: 'id' },
  user: { by: 'person', column: 'id' },
  membership: { by: 'org', column: 'org' },
  person_group: { by: 'org', column: 'org' },
  event: { by: 'org', column: 'org' },
  tree_node: 'open',
  log_head: 'open',
  session: { by: 'person', column: 'userId' },
  account: { by: 'person', column: 'userId' },
  verification: 'site',
  invitation: { by: 'org', column: 'org' },
  sign_in_ticket: { by: 'person', column: 'person' },
  sign_in_try: 'site',
  open_sitting: { by: 'org', column: 'org' },
  learning_answer: { by: 'person', column: 'person' },
  photo: { by: 'org', column: 'org' },
  person_group_member: { by: 'group', column: 'group' },
  calendar_address: { by: 'org', column: 'org' },
  sign_in_step: { by: 'person', column: 'person' },
  passkey_challenge: { by: 'person', column: 'person' },
  passkey: { by: 'person', column: 'person' },
  code_maker: { by: 'person', column: 'person' },
  recovery_code: { by: 'person', column: 'person' },
  reset_link: { by: 'org', column: 'org' },
  share_link: { by: 'org', column: 'org' },
  earlier_training: { by: 'org', column: 'org' },
  erasure_wish: { by: 'org', column: 'org' },
  retention_choice: { by: 'org', column: 'org' },
};

/** Every table but those of the migrations, in an order in which rows can be added. */
export const TABLE_NAMES: readonly string[] = Object.keys(WALLS);
/** Those that nothing hides: what is in them tells nobody anything. */
export const UNWALLED: readonly string[] = TABLE_NAMES.filter(
  (name) => WALLS[name as keyof typeof WALLS] === 'open',
);

/** What the site may do to a table that is not all four of reading, adding, changing and removing. */
const RIGHTS: Readonly<Record<string, string>> = {
  event: 'select, insert',
  tree_node: 'select, insert',
  log_head: 'select, insert, update',
  photo: 'select, insert, delete',
  learning_answer: 'select, insert, delete',
  kysely_migration: 'select',
  kysely_migration_lock: 'select',
};

const quote = (name: string): string => `"${name.replaceAll('"', '""')}"`;

/** The setting is read once a query. Not set, it is null or empty, which equals nobody. */
const ASKER = `(select current_setting('app.org', true))`;
const IS_SITE = `${ASKER} = '${WHOLE_SITE}'`;

/** A person or group is in reach where the tables they stand in show them: those have walls of their own. */
function conditionOf(wall: Exclude<Wall, 'open'>): string {
  if (wall === 'site') return IS_SITE;
  const column = quote(wall.column);
  switch (wall.by) {
    case 'org':
      return `${IS_SITE} or ${column} = ${ASKER}`;
    case 'person':
      return `${IS_SITE} or ${column} in (select person from membership)`;
    case 'group':
      return `${IS_SITE} or ${column} in (select id from person_group)`;
  }
}

function statementsFor(siteRole: string | null): string[] {
  const walls = Object.entries(WALLS).flatMap(([name, wall]) => {
    if (wall === 'open') return [];
    const condition = conditionOf(wall);
    const table = quote(name);
    return [
      `alter table ${table} enable row level security`,
      // also against the role the tables belong to
      `alter table ${table} force row level security`,
      `drop policy if exists wall on ${table}`,
      `create policy wall on ${table} using (${condition}) with check (${condition})`,
    ];
  });
  if (siteRole === null) return walls;
  const role = quote(siteRole);
  const tables = [...Object.keys(WALLS), 'kysely_migration', 'kysely_migration_lock'];
  const grants = tables.flatMap((name) => [
    `revoke all on ${quote(name)} from ${role}`,
    `grant ${RIGHTS[name] ?? 'select, insert, update, delete'} on ${quote(name)} to ${role}`,
  ]);
  return [...walls, `grant usage on schema public to ${role}`, ...grants];
}

/**
 * Brings the walls and rights up to this version, in one transaction; nothing is done where they are. `db` is the
 * role that owns the tables; `siteRole` the one the site runs as, null where both are one.
 */
export async function raiseWalls(db: Kysely<Tables>, siteRole: string | null): Promise<void> {
  const statements = statementsFor(siteRole);
  const mark = `walls ${createHash('sha256').update(statements.join(';\n')).digest('hex')}`;
  const { rows } = await sql<{ mark: string | null; able: boolean }>`
    select obj_description('log_head'::regclass, 'pg_class') as mark,
      has_table_privilege(${siteRole ?? sql`current_user`}, 'event', 'insert') as able`.execute(db);
  // rights are no part of a backup, so a database that was restored has the mark and not the rights
  if (rows[0]?.mark === mark && rows[0].able) return;
  await db.transaction().execute(async (trx) => {
    for (const statement of statements) await sql.raw(statement).execute(trx);
    await sql`comment on table log_head is ${sql.lit(mark)}`.execute(trx);
  });
}
