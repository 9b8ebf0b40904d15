import { type Kysely, sql } from 'kysely';

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
