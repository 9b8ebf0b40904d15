import { Kysely, sql, type Transaction } from 'kysely';
import { auditLog, type SigningKey } from '../../records/index.ts';
import { asSite } from '../asking.ts';
import { countPassed } from '../backup/progress.ts';
import { migrateToLatest } from '../migrate.ts';
import { type PostgresPlace, preparePostgres } from '../open-postgres.ts';
import { postgresDialect } from '../postgres-dialect.ts';
import { openSqliteFile, sqliteDialect } from '../sqlite-dialect.ts';
import { openStore } from '../store.ts';
import type { Tables } from '../tables.ts';
import { TABLE_NAMES } from '../walls.ts';
import { copyTable, sumTable } from './copy-table.ts';
import { MoveProblem } from './move-problem.ts';
import type { TableSum } from './row-sum.ts';

export type MoveOrder = {
  /** the store to be copied; it is only read */
  readonly file: string;
  readonly target: PostgresPlace;
  readonly siteKey: SigningKey;
  /** told how far it is, some hundred rows at a time */
  readonly tell?: (doing: 'copy' | 'compare' | 'audit', table: string, rows: number) => void;
};

export type Moved = {
  readonly tables: readonly (TableSum & { readonly name: string })[];
  /** of the log as it lies in the new place, worked out from its events */
  readonly size: number;
  readonly root: string;
  /** the newest checkpoint, to the letter as before */
  readonly checkpoint: string;
};

const OWN = new Set<string>([...TABLE_NAMES, 'kysely_migration', 'kysely_migration_lock']);

/** A database with tables of somebody else, or with a row in one of ours, is left alone. */
async function checkEmpty({ url, ownerUrl }: PostgresPlace): Promise<void> {
  const db = new Kysely<Tables>({ dialect: postgresDialect(ownerUrl ?? url) });
  try {
    const { rows } = await sql<{ name: string }>`
      select tablename as name from pg_tables where schemaname = current_schema()`.execute(db);
    for (const { name } of rows) {
      const isMigration = name.startsWith('kysely_');
      const filled = OWN.has(name) && !isMigration && (await hasRow(db, name));
      if (!OWN.has(name) || filled) {
        throw new MoveProblem(
          `The database is not empty (table ${name}), so nothing was copied; name one that was just made.`,
        );
      }
    }
  } finally {
    await db.destroy();
  }
}

async function hasRow(db: Kysely<Tables>, name: string): Promise<boolean> {
  const { rows } = await sql`select 1 from ${sql.table(name)} limit 1`.execute(db);
  return rows.length > 0;
}

function compare(name: string, before: TableSum, after: TableSum): void {
  if (before.rows === after.rows && before.digest === after.digest) return;
  throw new MoveProblem(
    `Table ${name} came out differently (${before.rows} rows before, ${after.rows} after), so all of it was undone.`,
  );
}

async function copyAll(
  from: Transaction<Tables>,
  to: Transaction<Tables>,
  tell: MoveOrder['tell'],
): Promise<Moved['tables']> {
  const sums: Moved['tables'][number][] = [];
  for (const name of TABLE_NAMES) {
    // another site may have been started on it between the look and now
    if (await hasRow(to, name)) {
      throw new MoveProblem(`Table ${name} was filled meanwhile, so nothing was copied.`);
    }
    const before = await copyTable(name, from, to, (rows) => tell?.('copy', name, rows));
    const after = await sumTable(name, to, (rows) => tell?.('compare', name, rows));
    compare(name, before, after);
    sums.push({ name, ...before });
  }
  return sums;
}

/** Reads the whole log in its new place and works its root out anew. */
async function auditTarget({ target, siteKey: key, tell }: Omit<MoveOrder, 'file'>, note: string) {
  const store = await openStore(target, key);
  try {
    const checkpoint = await store.checkpoint();
    const count = (rows: number) => tell?.('audit', 'event', rows);
    const report = await auditLog(countPassed(store.readChunks(), count), {
      checkpoints: [note],
      publicKeys: [key.publicKey],
      depth: 'events',
    });
    if (!report.ok || checkpoint !== note) {
      throw new MoveProblem(
        'The log in the database is not the one in the file; empty that database, and audit the file with npm run audit.',
      );
    }
    return { size: report.size, root: report.root, checkpoint };
  } finally {
    await store.close();
  }
}

/**
 * Copies a SQLite store into an empty PostgreSQL database, in one transaction there, and holds both against each
 * other. Nobody can write to the file meanwhile.
 * @throws MoveProblem; nothing is left in the database then but empty tables
 */
export async function moveStore(order: MoveOrder): Promise<Moved> {
  const { file, target, tell } = order;
  return asSite(async () => {
    await checkEmpty(target);
    const source = new Kysely<Tables>({ dialect: sqliteDialect(openSqliteFile(file)) });
    const database = new Kysely<Tables>({ dialect: postgresDialect(target.url) });
    try {
      await migrateToLatest(source);
      await preparePostgres(database, target);
      const { note, tables } = await source.transaction().execute(async (from) => {
        const head = await from.selectFrom('log_head').select('note').executeTakeFirst();
        if (head === undefined)
          throw new MoveProblem('The file holds no log, so nothing was copied.');
        const tables = await database.transaction().execute((to) => copyAll(from, to, tell));
        return { note: head.note, tables };
      });
      return { tables, ...(await auditTarget(order, note)) };
    } finally {
      await database.destroy();
      await source.destroy();
    }
  });
}
