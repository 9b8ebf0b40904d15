import type { Kysely, Transaction } from 'kysely';
import {
  appendLeaf,
  type Bytes,
  draftHash,
  type EventDraft,
  edgeNodes,
  edgeRoot,
  fromHex,
  type LogEvent,
  type NodeRef,
  readEvent,
  readEventDraft,
  type TreeEdge,
  toHex,
  toLogEntry,
} from '../records/index.ts';
import type { LogSigner } from './log-signer.ts';
import { EventRefused, IdConflict, StoreDamaged } from './problems.ts';
import type { Tables } from './tables.ts';

export type Appended = {
  readonly event: LogEvent;
  readonly seq: number;
  /** `logged`: entered now. `repeat`: the same event was entered before; nothing was done. */
  readonly state: 'logged' | 'repeat';
};

/** The stored event this draft repeats, null when its id is new. Throws IdConflict when it is another one. */
async function findRepeat(db: Transaction<Tables>, draft: EventDraft): Promise<Appended | null> {
  const row = await db
    .selectFrom('event')
    .select(['seq', 'json'])
    .where('id', '=', draft.id)
    .executeTakeFirst();
  if (row === undefined) return null;
  const stored = readEvent(JSON.parse(row.json));
  if (!stored.ok) throw new StoreDamaged(row.seq);
  const { received, ...before } = stored.event;
  if (draftHash(before as EventDraft) !== draftHash(draft)) throw new IdConflict(draft.id);
  return { event: stored.event, seq: row.seq, state: 'repeat' };
}

/** Hash of one whole subtree out of the store. */
export async function readNode(db: Kysely<Tables>, { level, index }: NodeRef): Promise<Bytes> {
  const row = await db
    .selectFrom('tree_node')
    .select('hash')
    .where('level', '=', level)
    .where('position', '=', index)
    .executeTakeFirst();
  const hash = row === undefined ? null : fromHex(row.hash);
  if (hash === null) throw new StoreDamaged(index * 2 ** level);
  return hash;
}

/** The right edge of the tree of `size` leaves. */
async function readEdge(db: Transaction<Tables>, size: number): Promise<TreeEdge> {
  const hashes: Bytes[] = [];
  for (const node of edgeNodes(size)) hashes.push(await readNode(db, node));
  return { size, hashes };
}

async function readSize(db: Transaction<Tables>): Promise<number> {
  const head = await db.selectFrom('log_head').select('size').executeTakeFirst();
  return head?.size ?? 0;
}

/**
 * Enters one event in a transaction that is already open: the event, its leaf, the subtrees it completes
 * and the newly signed head. Nothing of it counts until that transaction commits.
 *
 * @throws EventRefused when it is not an event, IdConflict when its id belongs to another event
 */
export async function appendEvent(
  db: Transaction<Tables>,
  given: EventDraft,
  signer: LogSigner,
  now: Date,
): Promise<Appended> {
  const read = readEventDraft(given);
  if (!read.ok) throw new EventRefused(read.error);
  const draft = read.event;
  const repeat = await findRepeat(db, draft);
  if (repeat !== null) return repeat;

  const size = await readSize(db);
  const event: LogEvent = { ...draft, received: now.toISOString() };
  const entry = toLogEntry(event, size);
  const { edge, made } = appendLeaf(await readEdge(db, size), entry.leafHash);
  const root = edgeRoot(edge);
  const entered = await db
    .insertInto('event')
    .values({
      seq: size,
      id: event.id,
      org: event.org,
      kind: event.kind,
      by: event.by,
      about: event.about,
      json: entry.text,
    })
    // an id that is taken by an event this organisation may not see
    .onConflict((conflict) => conflict.column('id').doNothing())
    .executeTakeFirst();
  if (entered.numInsertedOrUpdatedRows === 0n) throw new IdConflict(event.id);
  await db
    .insertInto('tree_node')
    .values(made.map(({ level, index, hash }) => ({ level, position: index, hash: toHex(hash) })))
    .execute();
  const head = {
    size: edge.size,
    root: toHex(root),
    note: await signer.signHead({ size: edge.size, root }),
  };
  await db
    .insertInto('log_head')
    .values({ log: 1, ...head })
    .onConflict((conflict) => conflict.column('log').doUpdateSet(head))
    .execute();
  return { event, seq: size, state: 'logged' };
}
