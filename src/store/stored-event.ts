import { createHash } from 'node:crypto';
import type { Selectable } from 'kysely';
import {
  type Bytes,
  type EventKindName,
  type EventOf,
  fromHex,
  readEvent,
  sameBytes,
} from '../records/index.ts';
import type { Tables } from './tables.ts';

type Found = {
  /** Place in the log, from 0. */
  readonly seq: number;
  /** Leaf hash noted when the event was entered; null when that note is gone. */
  readonly leafHash: Bytes | null;
  /** The stored bytes, as text: what the leaf hash is computed over. */
  readonly text: string;
};

/** An event whose stored bytes still have the hash they were entered with. */
export type WholeEvent<Kind extends EventKindName = EventKindName> = Found & {
  readonly event: { [K in Kind]: EventOf<K> }[Kind];
  readonly broken: null;
};

/**
 * A row that was changed after it was entered. It is shown, never dropped and never believed:
 * `event` is what can still be read of it, for display next to the reason, or null.
 */
export type BrokenEvent<Kind extends EventKindName = EventKindName> = Found & {
  readonly event: { [K in Kind]: EventOf<K> }[Kind] | null;
  /** One sentence: what does not fit. */
  readonly broken: string;
};

export type StoredEvent<Kind extends EventKindName = EventKindName> =
  | WholeEvent<Kind>
  | BrokenEvent<Kind>;

export type EventRow = Selectable<Tables['event']> & { readonly leaf: string | null };

function parseText(text: string): unknown {
  try {
    return JSON.parse(text);
  } catch {
    return undefined;
  }
}

const FINDING_COLUMNS = ['id', 'org', 'kind', 'by', 'about'] as const;

const LEAF = new Uint8Array([0]);

/**
 * The leaf hash of RFC 6962 section 2.1 by the system's own SHA-256, which is four times as quick as the one
 * that runs in a browser as well.
 */
export const storedLeafHash = (text: string): Bytes =>
  new Uint8Array(createHash('sha256').update(LEAF).update(text).digest());

/**
 * Reads one row and checks it: the hash of its bytes, that it is an event, and that the columns used to
 * find it say the same as the event itself.
 */
export function readStoredEvent(row: EventRow): StoredEvent {
  const noted = row.leaf === null ? null : fromHex(row.leaf);
  const found: Found = { seq: row.seq, leafHash: noted, text: row.json };
  const read = readEvent(parseText(row.json));
  const event = read.ok ? read.event : null;
  if (noted === null) {
    return { ...found, event, broken: 'The hash of this record is missing from the log.' };
  }
  if (!sameBytes(storedLeafHash(row.json), noted)) {
    return { ...found, event, broken: 'This record was changed after it entered the log.' };
  }
  if (event === null) {
    return { ...found, event, broken: 'This record cannot be read as an event.' };
  }
  if (FINDING_COLUMNS.some((column) => event[column] !== row[column])) {
    return {
      ...found,
      event,
      broken: 'This record was filed under something else after it was entered.',
    };
  }
  return { ...found, event, broken: null };
}
