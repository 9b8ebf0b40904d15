import type { Instant } from '../dates.ts';
import { countsFrom, receivedAt, timeOf } from '../log/instants.ts';
import type { LogEvent } from '../log/log-event.ts';
import { type Log, readLog } from '../log/read-log.ts';

/** Something that counts from an instant or before, and that the site received after it. */
export type LateEntry = {
  readonly event: string;
  readonly kind: string;
  readonly happened: Instant;
  readonly received: Instant;
};

type Where = { readonly bench: string; readonly works: readonly string[] | null };

function whereOfSignoff(log: Log, signoff: string): Where | null {
  const found = log.of('practical.signed').find(({ body }) => body.signoff === signoff);
  if (found === undefined) return null;
  const { bench, work } = found.body.statement;
  return { bench: bench.id, works: [work] };
}

function whereOfLeave(log: Log, authorisation: string): Where | null {
  const found = log.of('authorisation.given').find(({ id }) => id === authorisation);
  if (found === undefined) return null;
  const { bench, work } = found.body.statement;
  return { bench: bench.id, works: work };
}

const textOf = (value: unknown): string | null => (typeof value === 'string' ? value : null);

/** The bench and work an event bears on; null where it bears on every one. */
function whereOf(log: Log, { body }: LogEvent): Where | null {
  const held = body as Readonly<Record<string, unknown>>;
  const statement = held['statement'] as
    | { bench?: { id?: string }; work?: string | readonly string[]; signoff?: string }
    | undefined;
  if (statement?.bench?.id !== undefined && statement.work !== undefined) {
    return { bench: statement.bench.id, works: [statement.work].flat() };
  }
  const leave = textOf(held['authorisation']);
  if (leave !== null) return whereOfLeave(log, leave);
  const signoff = textOf(held['signoff']) ?? statement?.signoff ?? null;
  if (signoff !== null) return whereOfSignoff(log, signoff);
  const bench = textOf(held['bench']);
  const work = textOf(held['work']);
  return bench === null ? null : { bench, works: work === null ? null : [work] };
}

/** What came into the log after an instant although it counts from before it, for every place of one person. */
export function lateEntries(events: readonly LogEvent[], at: Instant): readonly LogEvent[] {
  const now = timeOf(at);
  return events.filter((event) => countsFrom(event) <= now && receivedAt(event) > now);
}

/** Those that bear on one bench and one kind of work, the one received first at the front. */
export function lateEntriesAt(
  events: readonly LogEvent[],
  late: readonly LogEvent[],
  place: { readonly bench: string; readonly work: string },
): LateEntry[] {
  if (late.length === 0) return [];
  const log = readLog(events);
  return late
    .filter((event) => {
      const where = whereOf(log, event);
      if (where === null) return true;
      return where.bench === place.bench && (where.works?.includes(place.work) ?? true);
    })
    .map((event) => ({
      event: event.id,
      kind: event.kind,
      happened: new Date(countsFrom(event)).toISOString(),
      received: event.received,
    }))
    .sort((a, b) => (a.received < b.received ? -1 : Number(a.received > b.received)));
}
