import { type Kysely, sql, type Transaction } from 'kysely';
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

/** Reads a table of PostgreSQL from one end to the other by where its rows lie, and adds them up. */
export async function sumTable(name: string, db: Kysely<Tables>): Promise<TableSum> {
  const sum = makeSum();
  for (let after = '(0,0)'; ; ) {
    const { rows } = await sql<Row & { ctid: string }>`
      select ctid::text as ctid, ${sql.table(name)}.* from ${sql.table(name)}
      where ctid > ${after}::tid order by ${sql.table(name)}.ctid limit ${ROWS_AT_A_TIME}`.execute(
      db,
    );
    for (const { ctid, ...row } of rows) {
      sum.add(row);
      after = ctid;
    }
    if (rows.length < ROWS_AT_A_TIME) return sum.read();
  }
}
