import type { EventOf, Kind } from './log-event.ts';
import type { Log } from './read-log.ts';

/**
 * The events of a kind by a key, in the order they count from: a drawer per key, filled once per log, so
 * that a question about one person does not read everybody's events.
 */
export function fileBy<K extends Kind>(
  kind: K,
  keyOf: (event: EventOf<K>) => string,
): (log: Log, key: string) => readonly EventOf<K>[] {
  const drawers = new WeakMap<Log, Map<string, EventOf<K>[]>>();
  return (log, key) => {
    const known = drawers.get(log) ?? Map.groupBy(log.of(kind), keyOf);
    drawers.set(log, known);
    return known.get(key) ?? [];
  };
}
