import { type Kysely, PostgresAdapter, sql } from 'kysely';

/**
 * Makes the database itself refuse to change or remove a row of `table`, whoever asks. INSERT OR REPLACE
 * counts as a removal only while recursive_triggers is on, which openSqliteFile sees to. A table a person
 * may have erased refuses `update` alone.
 */
export async function refuseChanges(
  db: Kysely<never>,
  table: string,
  changes: readonly ('update' | 'delete')[] = ['update', 'delete'],
): Promise<void> {
  if (db.getExecutor().adapter instanceof PostgresAdapter) {
    await refuseOnPostgres(db, table, changes);
    return;
  }
  for (const change of changes) {
    await sql`
      create trigger ${sql.id(`${table}_refuses_${change}`)}
      before ${sql.raw(change)} on ${sql.table(table)}
      begin
        select raise(abort, ${sql.lit(`${table} is append-only: ${change} refused`)});
      end
    `.execute(db);
  }
}

/** A statement that would empty the table counts as a removal of every row. */
async function refuseOnPostgres(
  db: Kysely<never>,
  table: string,
  changes: readonly ('update' | 'delete')[],
): Promise<void> {
  await sql`
    create or replace function refuse_change() returns trigger language plpgsql as $$
    begin
      raise exception '% is append-only: % refused', tg_table_name, lower(tg_op);
    end $$
  `.execute(db);
  for (const change of changes) {
    await sql`
      create trigger ${sql.id(`${table}_refuses_${change}`)}
      before ${sql.raw(change)} on ${sql.table(table)}
      for each row execute function refuse_change()
    `.execute(db);
  }
  if (!changes.includes('delete')) return;
  await sql`
    create trigger ${sql.id(`${table}_refuses_truncate`)}
    before truncate on ${sql.table(table)}
    for each statement execute function refuse_change()
  `.execute(db);
}
