import { countsFrom } from './instants.ts';
import type { EventOf, Kind, LogEvent } from './log-event.ts';

/** The log sorted by kind: each event once, in the order they count from. */
export type Log = {
  of<K extends Kind>(kind: K): readonly EventOf<K>[];
};

/** Each instant is read once, and not again for every comparison. */
function inOrder(events: readonly LogEvent[]): LogEvent[] {
  return events
    .map((event) => ({ event, from: countsFrom(event) }))
    .sort(
      (a, b) => a.from - b.from || (a.event.id < b.event.id ? -1 : Number(a.event.id > b.event.id)),
    )
    .map(({ event }) => event);
}

/** Of two copies of an event the altered one is kept: what is in doubt counts for nobody. */
function once(events: readonly LogEvent[]): LogEvent[] {
  const kept = new Map<string, LogEvent>();
  for (const event of events) {
    if (!kept.has(event.id) || event.altered === true) kept.set(event.id, event);
  }
  return [...kept.values()];
}

type Read = { readonly length: number; readonly log: Log };
const read = new WeakMap<readonly LogEvent[], Read>();

/** Reads a log given in any order, with copies or without. The same list is read once. */
export function readLog(events: readonly LogEvent[]): Log {
  const known = read.get(events);
  if (known !== undefined && known.length === events.length) return known.log;
  const kinds = Map.groupBy(inOrder(once(events)), ({ kind }) => kind);
  const log: Log = {
    of: <K extends Kind>(kind: K) => (kinds.get(kind) ?? []) as unknown as readonly EventOf<K>[],
  };
  read.set(events, { length: events.length, log });
  return log;
}
