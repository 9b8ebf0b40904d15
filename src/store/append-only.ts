import { type Kysely, sql } from 'kysely';

/**
 * Makes the database itself refuse to change or remove a row of `table`, whoever asks. INSERT OR REPLACE
 * counts as a removal only while recursive_triggers is on, which openSqliteFile sees to.
 */
export async function refuseChanges(db: Kysely<never>, table: string): Promise<void> {
  for (const change of ['update', 'delete'] as const) {
    await sql`
      create trigger ${sql.id(`${table}_refuses_${change}`)}
      before ${sql.raw(change)} on ${sql.table(table)}
      begin
        select raise(abort, ${sql.lit(`${table} is append-only: ${change} refused`)});
      end
    `.execute(db);
  }
}
