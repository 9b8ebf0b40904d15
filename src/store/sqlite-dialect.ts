import { closeSync, openSync } from 'node:fs';
import { DatabaseSync, type SQLInputValue } from 'node:sqlite';
import {
  CompiledQuery,
  type DatabaseConnection,
  type Driver,
  SqliteAdapter,
  type SqliteDatabase,
  SqliteDialect,
  type SqliteDialectConfig,
  SqliteDriver,
} from 'kysely';

/** How long a write waits for another process that is writing, milliseconds. */
const BUSY_TIMEOUT_MS = 5_000;
/** Pause between two tries for the write lock, milliseconds. */
const RETRY_MS = 2;

/**
 * Opens one SQLite file the way this site needs it: a write-ahead log, every commit on the disk before
 * it is acknowledged (synchronous FULL), foreign keys checked, and triggers that also fire inside
 * INSERT OR REPLACE (recursive_triggers), without which a replace slips past an append-only table.
 */
export function openSqliteFile(file: string): DatabaseSync {
  // Made here so that only its owner can read it; SQLite gives the log beside it the same rights.
  closeSync(openSync(file, 'a', 0o600));
  const database = new DatabaseSync(file, {
    timeout: BUSY_TIMEOUT_MS,
    enableForeignKeyConstraints: true,
  });
  try {
    database.exec('pragma journal_mode = wal');
    database.exec('pragma synchronous = full');
    database.exec('pragma recursive_triggers = on');
    database.exec('pragma trusted_schema = off');
    // what is erased is written over with zeros, not only forgotten
    database.exec('pragma secure_delete = on');
  } catch (error) {
    database.close();
    throw error;
  }
  return database;
}

/** Statements kept prepared, the newest used last; a page asks the same few dozen again and again. */
const MOST_STATEMENTS = 200;
/** What may be kept: no statement that begins or ends something, or makes a table another one. */
const IS_KEPT = /^(select|insert|update|delete|with)\b/i;

type Statement = ReturnType<DatabaseSync['prepare']>;

/** Prepares statements, and gives one again that is asked for again: half of a short query is its preparing. */
function makePreparing(database: DatabaseSync): (sql: string) => Statement {
  const kept = new Map<string, Statement>();
  return (sql) => {
    if (!IS_KEPT.test(sql)) return database.prepare(sql);
    const statement = kept.get(sql) ?? database.prepare(sql);
    kept.delete(sql);
    kept.set(sql, statement);
    if (kept.size > MOST_STATEMENTS) kept.delete(kept.keys().next().value as string);
    return statement;
  };
}

/** Kysely asks for a prepared statement that knows whether it returns rows; node:sqlite knows its columns. */
function asKyselyDatabase(database: DatabaseSync): SqliteDatabase {
  const prepare = makePreparing(database);
  return {
    close: () => database.close(),
    prepare(sql) {
      const statement = prepare(sql);
      const bind = (parameters: readonly unknown[]) => parameters as SQLInputValue[];
      return {
        reader: statement.columns().length > 0,
        // node:sqlite rows have no prototype; a plain object is what every consumer expects.
        all: (parameters) => statement.all(...bind(parameters)).map((row) => ({ ...row })),
        run: (parameters) => statement.run(...bind(parameters)),
        iterate: (parameters) => statement.iterate(...bind(parameters)),
      };
    },
  };
}

/** SQLITE_BUSY, https://sqlite.org/rescode.html#busy: the low byte of every kind of it. */
const SQLITE_BUSY = 5;

function isBusy(error: unknown): boolean {
  return (
    error instanceof Error &&
    'errcode' in error &&
    typeof error.errcode === 'number' &&
    (error.errcode & 0xff) === SQLITE_BUSY
  );
}

/**
 * Takes the write lock at the start. A deferred transaction that reads first and writes later can be
 * refused half-way when another process wrote in between; an immediate one waits its turn instead.
 * node:sqlite waits by standing still, so the waiting is done here, with the process free to work.
 */
class ImmediateSqliteDriver extends SqliteDriver {
  readonly #database: DatabaseSync;

  constructor(config: SqliteDialectConfig, database: DatabaseSync) {
    super(config);
    this.#database = database;
  }

  /** A full disk undoes the transaction by itself; to undo it again would hide what had happened. */
  override async rollbackTransaction(connection: DatabaseConnection): Promise<void> {
    if (this.#database.isTransaction) await super.rollbackTransaction(connection);
  }

  override async beginTransaction(connection: DatabaseConnection): Promise<void> {
    const run = (sql: string) => connection.executeQuery(CompiledQuery.raw(sql));
    const giveUp = Date.now() + BUSY_TIMEOUT_MS;
    await run('pragma busy_timeout = 0');
    try {
      for (;;) {
        try {
          await run('begin immediate');
          return;
        } catch (error) {
          if (!isBusy(error) || Date.now() >= giveUp) throw error;
        }
        await new Promise((resolve) => setTimeout(resolve, RETRY_MS));
      }
    } finally {
      await run(`pragma busy_timeout = ${BUSY_TIMEOUT_MS}`);
    }
  }
}

/** SQLite can roll a schema change back, so a migration that is killed half-way leaves nothing behind. */
class TransactionalSqliteAdapter extends SqliteAdapter {
  override get supportsTransactionalDdl(): boolean {
    return true;
  }
}

class NodeSqliteDialect extends SqliteDialect {
  readonly #config: SqliteDialectConfig;
  readonly #database: DatabaseSync;

  constructor(database: DatabaseSync) {
    const config = { database: asKyselyDatabase(database) };
    super(config);
    this.#config = config;
    this.#database = database;
  }

  override createDriver(): Driver {
    return new ImmediateSqliteDriver(this.#config, this.#database);
  }

  override createAdapter(): SqliteAdapter {
    return new TransactionalSqliteAdapter();
  }
}

/**
 * Kysely on an open node:sqlite database. Kysely gives this dialect one connection behind one queue, so
 * transactions of the same process run one after another, in the order they were asked for.
 */
export function sqliteDialect(database: DatabaseSync): SqliteDialect {
  return new NodeSqliteDialect(database);
}
