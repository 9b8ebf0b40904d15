import type { LogEvent as Evidence } from '../../competence/index.ts';
import type { BodyOf, EventOf } from '../../records/index.ts';

export type Entry = BodyOf<'bench.registered'>;

/** One entry of a machine, and what in it is other than in the entry before. */
export type EntryStep = {
  readonly id: string;
  readonly at: string;
  readonly by: string;
  readonly entry: Entry;
  readonly changes: readonly EntryChange[];
};

/** A field that differs; null where the entry has none. Numbers, words and yes or no as they stand in the file. */
export type EntryChange = {
  /** such as `title`, `file.arbor.runDown`, `blades[0].kerf` */
  readonly path: string;
  readonly before: string | null;
  readonly after: string | null;
};

/** Every plain value of an entry by its path. The id and the why of an entry are no part of the machine. */
function leavesOf(value: unknown, path = ''): Map<string, string> {
  if (value === null || value === undefined) return new Map();
  if (typeof value !== 'object') return new Map([[path, String(value)]]);
  // a list of plain words is read as one value
  if (Array.isArray(value) && value.every((one) => typeof one !== 'object')) {
    return value.length === 0 ? new Map() : new Map([[path, value.join(', ')]]);
  }
  const join = (key: string) =>
    Array.isArray(value) ? `${path}[${key}]` : path === '' ? key : `${path}.${key}`;
  return new Map(Object.entries(value).flatMap(([key, inner]) => [...leavesOf(inner, join(key))]));
}

/** What differs between two entries of a machine, in the order of the newer one. */
export function changesBetween(before: Entry, after: Entry): EntryChange[] {
  const [older, newer] = [before, after].map(({ change: _, bench: _bench, ...machine }) =>
    leavesOf(machine),
  ) as [Map<string, string>, Map<string, string>];
  return [...new Set([...newer.keys(), ...older.keys()])]
    .map((path) => ({
      path,
      before: older.get(path) ?? null,
      after: newer.get(path) ?? null,
    }))
    .filter((one) => one.before !== one.after);
}

const isEntryOf =
  (bench: string) =>
  (event: Evidence): event is EventOf<'bench.registered'> =>
    event.kind === 'bench.registered' && event.altered !== true && event.about === bench;

/** The entries of a machine, the newest first; an altered record is none. */
export function entriesOf(events: readonly Evidence[], bench: string): EntryStep[] {
  const entries = events.filter(isEntryOf(bench));
  return entries
    .map((event, i) => {
      const before = entries[i - 1]?.body;
      return {
        id: event.id,
        at: event.at,
        by: event.by,
        entry: event.body,
        changes: before === undefined ? [] : changesBetween(before, event.body),
      };
    })
    .reverse();
}
