import { type EventRow, readStoredEvent, type StoredEvent } from './stored-event.ts';

/** Most text of events that is remembered by one store, characters; what is read of it takes some four times that. */
const MOST_TEXT = 24_000_000;

type Remembered = { readonly row: EventRow; readonly stored: StoredEvent };

const COLUMNS = ['json', 'leaf', 'id', 'org', 'kind', 'by', 'about'] as const;

/** Whether the row is to the letter what it was; then what was found of it still holds. */
const isAsBefore = (row: EventRow, before: EventRow): boolean =>
  COLUMNS.every((column) => row[column] === before[column]);

/**
 * Reads stored events and remembers those read last. The row comes from the disk each time and is held against
 * the one remembered, so that a record that was changed since is read and checked again like any other.
 */
export function makeEventReader(mostText: number = MOST_TEXT): (row: EventRow) => StoredEvent {
  const lately = new Map<number, Remembered>();
  let text = 0;
  const forget = (seq: number, { row }: Remembered) => {
    lately.delete(seq);
    text -= row.json.length;
  };
  return (row) => {
    const before = lately.get(row.seq);
    if (before !== undefined) forget(row.seq, before);
    return before !== undefined && isAsBefore(row, before.row)
      ? remember(before.row, before.stored)
      : remember(row, readStoredEvent(row));
  };

  function remember(row: EventRow, stored: StoredEvent): StoredEvent {
    lately.set(row.seq, { row, stored });
    text += row.json.length;
    for (const [seq, oldest] of lately) {
      if (text <= mostText) break;
      forget(seq, oldest);
    }
    return stored;
  }
}
