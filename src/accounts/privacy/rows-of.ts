import type { Kysely } from 'kysely';
import type { Tables } from '../../store/index.ts';
import { TABLE_NAMES, TABLES_KEPT, type TableName } from './data-map.ts';

export type Row = Readonly<Record<string, unknown>>;

/** The column that says whose a row is: the person it is of, or whom a row of the organisation is about. */
export function personColumn(name: TableName): string | null {
  const { of, about } = TABLES_KEPT[name];
  if (of !== 'nobody' && 'person' in of) return of.person;
  return about ?? null;
}

/** A row without what would open something; bytes as base 64, so that it can be written as text. */
export function showRow(name: TableName, row: Row): Row {
  const secret: readonly string[] = TABLES_KEPT[name].secret ?? [];
  return Object.fromEntries(
    Object.entries(row)
      .filter(([column]) => !secret.includes(column))
      .map(([column, value]) => [
        column,
        value instanceof Uint8Array ? Buffer.from(value).toString('base64') : value,
      ]),
  );
}

/** Every row of every table that is about one person, by table; tables without one are left out. */
export async function rowsOfPerson(
  db: Kysely<Tables>,
  person: string,
): Promise<Readonly<Record<string, readonly Row[]>>> {
  const found: Record<string, readonly Row[]> = {};
  for (const name of TABLE_NAMES) {
    const column = personColumn(name);
    if (column === null) continue;
    const rows = await db
      .selectFrom(name as 'user')
      .selectAll()
      .where(column as 'id', '=', person)
      .execute();
    if (rows.length > 0) found[name] = rows.map((row) => showRow(name, row));
  }
  return found;
}
