import {
  type Bytes,
  canonicalBytes,
  canonicalText,
  leafHash,
  sha256,
  toHex,
} from '../check/index.ts';
import type { EventDraft, LogEvent } from './registry.ts';

/** An event as the log keeps it. */
export type LogEntry = {
  /** leaf number, from 0 */
  readonly index: number;
  /** canonical JSON of the event: the very bytes that are hashed */
  readonly text: string;
  /** RFC 6962 leaf hash of those bytes, as it was when the event was entered */
  readonly leafHash: Bytes;
};

/** What a check of the whole log needs of a store: every event, in order, as it lies there. */
export type LogReader = { readAll(): AsyncIterable<LogEntry> };

/** Text and leaf hash of an event about to be entered. */
export function toLogEntry(event: LogEvent, index: number): LogEntry {
  const text = canonicalText(event);
  return { index, text, leafHash: leafHash(canonicalBytes(event)) };
}

/**
 * SHA-256 of a draft, in hexadecimal. The same id with the same hash is the same event sent again;
 * the same id with another hash is a clash.
 */
export const draftHash = (draft: EventDraft): string => toHex(sha256(canonicalBytes(draft)));
