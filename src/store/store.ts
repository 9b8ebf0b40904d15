import { CompiledQuery, Kysely, sql, type Transaction } from 'kysely';
import { logRecorded } from '../logging/index.ts';
import {
  type Bytes,
  consistencyRanges,
  type EventDraft,
  type EventKindName,
  emptyRoot,
  fromHex,
  hashRange,
  inclusionRanges,
  type LogEntry,
  type NodeRef,
  nodesOf,
  type SigningKey,
  toHex,
} from '../records/index.ts';
import { type Appended, appendEvent, readNode } from './append-event.ts';
import { asSite } from './asking.ts';
import { cutIds } from './cut-ids.ts';
import { makeEventReader } from './event-reader.ts';
import { makeTurns, tryAgain } from './in-turn.ts';
import { type LogSigner, makeLogSigner } from './log-signer.ts';
import { migrateToLatest } from './migrate.ts';
import { type PostgresPlace, preparePostgres } from './open-postgres.ts';
import { postgresDialect } from './postgres-dialect.ts';
import { isStoreAway, StoreUnusable } from './problems.ts';
import { openSqliteFile, sqliteDialect } from './sqlite-dialect.ts';
import type { EventRow, StoredEvent } from './stored-event.ts';
import type { Tables } from './tables.ts';

/** Which events: of one organisation, and of these kinds, about or by this one, when given. */
export type EventFilter<Kind extends EventKindName = EventKindName> = {
  readonly org: string;
  readonly kinds?: readonly Kind[];
  readonly about?: string;
  readonly by?: string;
  /** about any of these, and by any of these: as many as are wanted, read some hundreds at a time */
  readonly abouts?: readonly string[];
  readonly bys?: readonly string[];
  /** whose text holds this, letter by letter; without `%`, `_` and a backslash, which mean more in a search */
  readonly containing?: string;
  /** entered after this place in the log */
  readonly after?: number;
  /** at most so many, the first ones */
  readonly limit?: number;
  /** at most so many, the last ones; still in the order of the log */
  readonly last?: number;
};

/** The way from one record to the newest checkpoint. */
export type Inclusion = {
  /** The newest signed head of the log, a signed note. */
  readonly checkpoint: string;
  readonly index: number;
  readonly size: number;
  /** RFC 6962 audit path, nearest the leaf first. */
  readonly path: readonly Bytes[];
};

/** Some records with their ways to one and the same checkpoint: what a proof is built from. */
export type Proved = {
  readonly checkpoint: string;
  readonly size: number;
  readonly entries: readonly { readonly entry: LogEntry; readonly path: readonly Bytes[] }[];
};

/** The way from the log as it was to the log as it is. */
export type Continued = {
  /** The newest signed head of the log, a signed note. */
  readonly checkpoint: string;
  readonly size: number;
  /** RFC 6962 consistency proof from the first `from` records to all of them; empty past the end. */
  readonly path: readonly Bytes[];
};

/** What can be done inside one transaction: everything in it is kept, or nothing. */
export type StoreWrite = {
  readonly db: Transaction<Tables>;
  readonly append: (draft: EventDraft) => Promise<Appended>;
};

export type Store = {
  /** The tables themselves, for the account tables. Events are written by `append` and `write` only. */
  readonly db: Kysely<Tables>;
  /**
   * Enters one event and resolves when it is on the disk. The same event again gives the same answer.
   * @throws EventRefused, IdConflict
   */
  readonly append: (draft: EventDraft) => Promise<Appended>;
  /** Runs `work` in one transaction; what it throws undoes all of it. Use only its own `db` inside. */
  readonly write: <Result>(work: (write: StoreWrite) => Promise<Result>) => Promise<Result>;
  /** Events in the order they were entered, each checked against its hash; a changed one is marked. */
  readonly events: <Kind extends EventKindName = EventKindName>(
    filter: EventFilter<Kind>,
  ) => Promise<StoredEvent<Kind>[]>;
  readonly event: (id: string) => Promise<StoredEvent | null>;
  /** The newest signed head of the log, a signed note. */
  readonly checkpoint: () => Promise<string>;
  /** @throws RangeError when the log has no such record */
  readonly inclusion: (seq: number) => Promise<Inclusion>;
  /** @throws RangeError when the log has no such record */
  readonly prove: (seqs: readonly number[]) => Promise<Proved>;
  /**
   * The hashes that show whether today's log goes on from its first `from` records.
   * @throws StoreDamaged when a hash is missing
   */
  readonly continuation: (from: number) => Promise<Continued>;
  /** The whole log as it lies there, for an audit. */
  readonly readAll: () => AsyncIterable<LogEntry>;
  /** The same, a thousand at a time. */
  readonly readChunks: () => AsyncIterable<readonly LogEntry[]>;
  /**
   * Takes what was erased out of the files as well, as far as the database can: `log` empties the write-ahead
   * log, `whole` writes the file anew, which takes time. A PostgreSQL server does this by itself.
   */
  readonly scrub: (how: 'log' | 'whole') => Promise<void>;
  readonly close: () => Promise<void>;
};

/** A file of SQLite, or the address of a PostgreSQL database. */
export type StorePlace = { readonly file: string } | PostgresPlace;

const ROWS_AT_A_TIME = 1_000;

async function hashRanges(
  db: Kysely<Tables>,
  ranges: ReturnType<typeof inclusionRanges>,
): Promise<Bytes[]> {
  const key = ({ level, index }: NodeRef) => `${level}/${index}`;
  const hashes = new Map<string, Bytes>();
  for (const node of nodesOf(ranges)) hashes.set(key(node), await readNode(db, node));
  return ranges.map((range) => hashRange(range, (node) => hashes.get(key(node)) as Bytes));
}

/** Without a transaction: the head is read first, and the subtrees below it never change again. */
async function proveEntries(db: Kysely<Tables>, seqs: readonly number[]): Promise<Proved> {
  const { size, note } = await db.selectFrom('log_head').selectAll().executeTakeFirstOrThrow();
  const entries: Proved['entries'][number][] = [];
  for (const seq of seqs) {
    const path = await hashRanges(db, inclusionRanges(seq, size));
    const row = await selectEvents(db).where('event.seq', '=', seq).executeTakeFirstOrThrow();
    entries.push({ entry: asLogEntry(row), path });
  }
  return { checkpoint: note, size, entries };
}

async function proveContinuation(db: Kysely<Tables>, from: number): Promise<Continued> {
  const { size, note } = await db.selectFrom('log_head').selectAll().executeTakeFirstOrThrow();
  const ranges = from > size ? [] : consistencyRanges(from, size);
  return { checkpoint: note, size, path: await hashRanges(db, ranges) };
}

/** A missing hash reads as an empty one, which no event has. */
function asLogEntry({ seq, json, leaf }: EventRow): LogEntry {
  const noted = leaf === null ? null : fromHex(leaf);
  return { index: seq, text: json, leafHash: noted ?? new Uint8Array(0) };
}

async function* readEntries(db: Kysely<Tables>): AsyncIterable<readonly LogEntry[]> {
  for (let next = 0; ; ) {
    const some = selectEvents(db).where('event.seq', '>=', next).limit(ROWS_AT_A_TIME);
    // the log is one: whoever reads all of it reads it for the site
    const rows = await asSite(() => some.execute());
    yield rows.map(asLogEntry);
    if (rows.length < ROWS_AT_A_TIME) return;
    next = (rows.at(-1)?.seq ?? 0) + 1;
  }
}

async function* readAllEntries(db: Kysely<Tables>): AsyncIterable<LogEntry> {
  for await (const some of readEntries(db)) yield* some;
}

function selectEvents(db: Kysely<Tables>) {
  return db
    .selectFrom('event')
    .leftJoin('tree_node', (join) =>
      join.onRef('tree_node.position', '=', 'event.seq').on('tree_node.level', '=', 0),
    )
    .selectAll('event')
    .select('tree_node.hash as leaf')
    .orderBy('event.seq');
}

/** Rows of several readings in the order of the log, as many as a filter wants. */
function cutRows(found: EventRow[], { last, limit }: EventFilter): EventRow[] {
  found.sort((a, b) => a.seq - b.seq);
  return last === undefined ? found.slice(0, limit) : found.slice(Math.max(0, found.length - last));
}

/** A few rows of several kinds, kind by kind: each comes in the order of its index, and none is sorted for nothing. */
async function findFewOfKinds(
  db: Kysely<Tables>,
  filter: EventFilter,
  kinds: readonly EventKindName[],
): Promise<EventRow[]> {
  const found: EventRow[] = [];
  for (const kind of kinds) found.push(...(await findRows(db, { ...filter, kinds: [kind] })));
  return cutRows(found, filter);
}

/** The rows a filter lets through, in the order of the log. */
async function findRows(db: Kysely<Tables>, filter: EventFilter): Promise<EventRow[]> {
  for (const column of ['abouts', 'bys'] as const) {
    const parts = cutIds(filter[column] ?? []);
    if (parts.length <= 1) continue;
    const found: EventRow[] = [];
    for (const part of parts) found.push(...(await findRows(db, { ...filter, [column]: part })));
    return cutRows(found, filter);
  }
  const { about, abouts, after, by, bys, containing, kinds, last, limit, org } = filter;
  if ([kinds, abouts, bys].some((wanted) => wanted?.length === 0)) return [];
  if (kinds !== undefined && kinds.length > 1 && (last ?? limit) !== undefined) {
    return findFewOfKinds(db, filter, kinds);
  }
  let query = selectEvents(db);
  const isWholeLog = [about, abouts, by, bys, kinds].every((wanted) => wanted === undefined);
  // the whole log of an organisation is read along the log itself: through an index on the organisation each
  // part of it would sort all that is left
  query = isWholeLog
    ? query.where(sql`event.org || ''`, '=', org)
    : query.where('event.org', '=', org);
  if (kinds !== undefined) query = query.where('event.kind', 'in', kinds);
  if (about !== undefined) query = query.where('event.about', '=', about);
  if (by !== undefined) query = query.where('event.by', '=', by);
  if (abouts !== undefined) query = query.where('event.about', 'in', abouts);
  if (bys !== undefined) query = query.where('event.by', 'in', bys);
  if (containing !== undefined) query = query.where('event.json', 'like', `%${containing}%`);
  if (after !== undefined) query = query.where('event.seq', '>', after);
  if (limit !== undefined) query = query.limit(limit);
  if (last === undefined) return query.execute();
  const newest = query.clearOrderBy().orderBy('event.seq', 'desc').limit(last);
  return (await newest.execute()).reverse();
}

/** Goes on with the log that is there, or begins one with the signed head of nothing. */
async function prepareLog(db: Kysely<Tables>, key: SigningKey): Promise<LogSigner> {
  return db.transaction().execute(async (trx) => {
    const head = await trx.selectFrom('log_head').selectAll().executeTakeFirst();
    const signer = await makeLogSigner(key, head?.note ?? null);
    if (signer === null) {
      throw new StoreUnusable(
        `The site key is not the one that signed this log of ${head?.size} records; put the right site-key.json back from your backup.`,
      );
    }
    if (head === undefined) {
      const root = emptyRoot();
      const note = await signer.signHead({ size: 0, root });
      await trx
        .insertInto('log_head')
        .values({ log: 1, size: 0, root: toHex(root), note })
        .execute();
    }
    return signer;
  });
}

/**
 * Opens the store, making or updating its tables.
 * @throws the database's error when the file cannot be opened or written, StoreUnusable when the key does
 * not belong to the log
 */
export async function openStore(
  place: StorePlace,
  siteKey: SigningKey,
  clock: () => Date = () => new Date(),
): Promise<Store> {
  const dialect =
    'url' in place ? postgresDialect(place.url) : sqliteDialect(openSqliteFile(place.file));
  const db = new Kysely<Tables>({ dialect });
  let signer: LogSigner;
  try {
    signer = await asSite(async () => {
      await ('url' in place ? preparePostgres(db, place) : migrateToLatest(db));
      return prepareLog(db, siteKey);
    });
  } catch (error) {
    await db.destroy();
    throw error;
  }

  const read = makeEventReader();
  // whoever waits for the database's one writer holds no connection of this process meanwhile
  const inTurn = 'url' in place ? makeTurns(1) : <Result>(work: () => Promise<Result>) => work();
  const write: Store['write'] = async (work) => {
    let entered: string[] = [];
    const done = await inTurn(() =>
      tryAgain(async (attempt) =>
        db.transaction().execute((trx) => {
          attempt.isBegun = true;
          entered = [];
          const append = async (draft: EventDraft) => {
            const appended = await appendEvent(trx, draft, signer, clock());
            if (appended.state === 'logged') entered.push(draft.kind);
            return appended;
          };
          return work({ db: trx, append });
        }),
      ),
    );
    logRecorded(entered);
    return done;
  };

  return {
    db,
    write,
    append: (draft) =>
      // whether it was kept before the connection was lost, its id settles
      write(({ append }) => append(draft)).catch((error: unknown) => {
        if (!isStoreAway(error)) throw error;
        return write(({ append }) => append(draft));
      }),
    async events<Kind extends EventKindName>(filter: EventFilter<Kind>) {
      const rows = await findRows(db, filter);
      return rows.map(read) as StoredEvent<Kind>[];
    },
    async event(id) {
      const row = await selectEvents(db).where('event.id', '=', id).executeTakeFirst();
      return row === undefined ? null : read(row);
    },
    async checkpoint() {
      const head = await db.selectFrom('log_head').select('note').executeTakeFirstOrThrow();
      return head.note;
    },
    prove: (seqs) => proveEntries(db, seqs),
    async inclusion(seq) {
      const { checkpoint, size, entries } = await proveEntries(db, [seq]);
      return { checkpoint, size, index: seq, path: entries[0]?.path ?? [] };
    },
    continuation: (from) => proveContinuation(db, from),
    readAll: () => readAllEntries(db),
    readChunks: () => readEntries(db),
    async scrub(how) {
      if ('url' in place) return;
      if (how === 'whole') await db.executeQuery(CompiledQuery.raw('vacuum'));
      await db.executeQuery(CompiledQuery.raw('pragma wal_checkpoint(truncate)'));
    },
    close: () => db.destroy(),
  };
}
