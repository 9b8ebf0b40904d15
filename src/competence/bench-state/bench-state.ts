import type { Instant } from '../dates.ts';
import { fileBy } from '../log/file-by.ts';
import { countsFrom, timeOf } from '../log/instants.ts';
import type { EventOf, LogEvent } from '../log/log-event.ts';
import { type Log, readLog } from '../log/read-log.ts';
import { heldRole } from '../log/role-at.ts';

/** The checks of one day at a machine. */
export type BenchCheck = {
  readonly id: string;
  readonly at: Instant;
  readonly by: string;
  readonly verdict: 'fit' | 'not-fit';
  readonly checks: EventOf<'bench.checked'>['body']['checks'];
};

export type BenchState = {
  readonly state: 'in-service' | 'out-of-service';
  /** when it was taken out, or last returned; null while it was never out */
  readonly since: Instant | null;
  /** as it was written: why it is out, or what was done before it came back; null where nothing was */
  readonly reason: string | null;
  readonly by: string | null;
  /** what took it out: somebody said so, or a daily check found it not fit; null in service */
  readonly cause: 'taken-out' | 'not-fit' | null;
  readonly lastCheck: BenchCheck | null;
  /** newest first */
  readonly checks: readonly BenchCheck[];
};

type Turn = {
  readonly at: number;
  readonly since: Instant;
  readonly by: string;
  readonly to: 'taken-out' | 'not-fit' | 'returned';
  readonly reason: string | null;
};

/** What was not sound, as it was noted. */
const notesOf = ({ body }: EventOf<'bench.checked'>): string | null =>
  body.checks
    .filter(({ result }) => result === 'not-sound')
    .flatMap(({ note }) => (note === null ? [] : [note]))
    .join(' ') || null;

const checksAt = fileBy('bench.checked', ({ body }) => body.bench);
const returnsOf = fileBy('bench.returned', ({ body }) => body.bench);
const takenOut = fileBy('bench.taken-out', ({ body }) => body.bench);

const turn = (event: LogEvent, to: Turn['to'], reason: string | null): Turn => {
  const { at, received, by } = event;
  const counts = countsFrom(event);
  return { at: counts, since: counts === timeOf(at) ? at : received, by, to, reason };
};

/** All that took the machine out or brought it back, in order; at the same instant, out comes last. */
function turnsOf(log: Log, bench: string, now: number): Turn[] {
  const of = (event: LogEvent) => countsFrom(event) <= now;
  const returned = returnsOf(log, bench)
    .filter((event) => of(event) && event.altered !== true)
    .filter((event) => heldRole(log, { person: event.by, at: countsFrom(event) }, ['trainer']))
    .map((event) => turn(event, 'returned', event.body.done));
  const out = takenOut(log, bench)
    .filter(of)
    .map((event) => turn(event, 'taken-out', event.body.reason));
  const notFit = checksAt(log, bench)
    .filter((event) => of(event) && event.body.verdict === 'not-fit')
    .map((event) => turn(event, 'not-fit', notesOf(event)));
  return [...returned, ...notFit, ...out].sort((a, b) => a.at - b.at);
}

export function benchStateAt(log: Log, bench: string, now: number): BenchState {
  const checks = checksAt(log, bench)
    .filter((event) => countsFrom(event) <= now)
    .filter((event) => event.altered !== true)
    .map(({ id, at, by, body }) => ({ id, at, by, verdict: body.verdict, checks: body.checks }))
    .reverse();
  const seen = { lastCheck: checks[0] ?? null, checks };
  let last: Turn | null = null;
  for (const next of turnsOf(log, bench, now)) {
    // the first that took it out says since when; a plain word outweighs a check
    if (next.to === 'returned' || last === null || last.to === 'returned') last = next;
    else if (last.to === 'not-fit' && next.to === 'taken-out')
      last = { ...next, since: last.since };
  }
  if (last === null) {
    return { state: 'in-service', since: null, reason: null, by: null, cause: null, ...seen };
  }
  const { since, by, reason, to } = last;
  return to === 'returned'
    ? { state: 'in-service', since, reason, by, cause: null, ...seen }
    : { state: 'out-of-service', since, reason, by, cause: to, ...seen };
}

/**
 * Whether a machine may be used at an instant, since when and why, with its daily checks. A check that
 * found it not fit takes it out too; only a trainer's return brings it back, never a later check.
 */
export const benchStateOf = (events: readonly LogEvent[], bench: string, at: Instant): BenchState =>
  benchStateAt(readLog(events), bench, timeOf(at));
