import { sql, type Transaction } from 'kysely';
import type { Tables } from '../tables.ts';
import { makeSum, type Row, type TableSum } from './row-sum.ts';

/** Rows that go over in one statement, and their most bytes: photos are large. PostgreSQL takes 65,535 values. */
const ROWS_AT_A_TIME = 500;
const BYTES_AT_A_TIME = 4_000_000;

const sizeOf = (row: Row): number =>
  Object.values(row).reduce<number>(
    (sum, value) =>
      sum + (typeof value === 'string' || value instanceof Uint8Array ? value.length : 8),
    0,
  );

/** Copies one table row by row, a batch held at a time. Returns the sum of what was read. */
export async function copyTable(
  name: string,
  from: Transaction<Tables>,
  to: Transaction<Tables>,
  tell: (rows: number) => void,
): Promise<TableSum> {
  const sum = makeSum();
  let batch: Row[] = [];
  let bytes = 0;
  const flush = async () => {
    if (batch.length === 0) return;
    await to
      .insertInto(name as 'event')
      .values(batch as never)
      .execute();
    batch = [];
    bytes = 0;
    tell(sum.read().rows);
  };
  for await (const row of from
    .selectFrom(name as 'event')
    .selectAll()
    .stream()) {
    sum.add(row);
    batch.push(row);
    bytes += sizeOf(row);
    if (batch.length >= ROWS_AT_A_TIME || bytes >= BYTES_AT_A_TIME) await flush();
  }
  await flush();
  return sum.read();
}

/**
 * Reads a table of PostgreSQL from one end to the other and adds its rows up. By a cursor: asked for by where they
 * lie, each batch would sort all the rows that are left.
 */
export async function sumTable(
  name: string,
  db: Transaction<Tables>,
  tell: (rows: number) => void,
): Promise<TableSum> {
  const sum = makeSum();
  await sql`declare table_rows no scroll cursor for select * from ${sql.table(name)}`.execute(db);
  for (;;) {
    const { rows } = await sql<Row>`
      fetch ${sql.lit(ROWS_AT_A_TIME)} from table_rows`.execute(db);
    for (const row of rows) sum.add(row);
    tell(sum.read().rows);
    if (rows.length < ROWS_AT_A_TIME) break;
  }
  await sql`close table_rows`.execute(db);
  return sum.read();
}
