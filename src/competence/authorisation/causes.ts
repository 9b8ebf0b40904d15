import { addDays, type Day, dayOf, type Instant, startOfDay } from '../dates.ts';
import { countsFrom, receivedAt, timeOf } from '../log/instants.ts';
import type { EventOf, SuspendCause } from '../log/log-event.ts';
import type { Log } from '../log/read-log.ts';
import { type Given, lifts, refreshesOf } from './refreshes.ts';
import { type LastUse, lastUseOf, usesOf } from './uses.ts';

/** Why an authorisation rests. Each is lifted by a refresh that comes after it. */
export type RestCause = {
  readonly kind: 'near-miss' | 'guard-change' | 'machine-change' | 'long-break' | 'suspended';
  /** since when it rests for this */
  readonly since: Instant;
  /** the day it happened on: a practical that lifts it is watched then or later */
  readonly day: Day;
  /** when it was known here, milliseconds since 1970 */
  readonly known: number;
  /** the event that says so; null for a long break */
  readonly event: string | null;
  readonly by: string | null;
  /** as it was typed; empty where nobody typed one */
  readonly reason: string;
  /** the kind of reason it was suspended for */
  readonly suspendedFor?: SuspendCause;
};

const instantOf = (at: number): Instant => new Date(at).toISOString();

function nearMisses(log: Log, given: Given, now: number): RestCause[] {
  const { bench, who } = given.body.statement;
  return (
    log
      .of('near-miss.reported')
      .filter(({ body }) => body.bench === bench.id)
      // where nobody is named, nobody at this bench is left out
      .filter(({ body }) => body.people.length === 0 || body.people.includes(who.person))
      .filter((event) => countsFrom(event) <= now && receivedAt(event) > countsFrom(given))
      .map((event) => {
        const from = Math.min(countsFrom(event), timeOf(event.body.happenedAt));
        return {
          kind: 'near-miss',
          since: instantOf(Math.max(from, countsFrom(given))),
          day: dayOf(instantOf(from)),
          known: receivedAt(event),
          event: event.id,
          by: event.by,
          reason: '',
        };
      })
  );
}

/** s: a stop that takes so much longer or shorter is another brake. Our own choice, without a source. */
const OTHER_BRAKE = 1;

type Registered = EventOf<'bench.registered'>;

/** What is other at a machine than in the entry before, whatever that entry says of itself. */
function changeSince(before: Registered | undefined, after: Registered): RestCause['kind'] | null {
  if (after.body.change === 'machine') return 'machine-change';
  const [was, is] = [before?.body.file, after.body.file];
  if (was !== undefined) {
    const isLarger = is.arbor.largestBlade > was.arbor.largestBlade;
    const isOtherBrake = Math.abs(is.arbor.runDown - was.arbor.runDown) >= OTHER_BRAKE;
    if (isLarger || isOtherBrake) return 'machine-change';
    if (is.guard?.kind !== was.guard?.kind) return 'guard-change';
  }
  return after.body.change === 'guard' ? 'guard-change' : null;
}

function benchChanges(log: Log, given: Given, now: number): RestCause[] {
  const entries = log
    .of('bench.registered')
    .filter(({ body }) => body.bench === given.body.statement.bench.id)
    .toSorted((a, b) => receivedAt(a) - receivedAt(b));
  return entries.flatMap((event, place): RestCause[] => {
    const kind = changeSince(entries[place - 1], event);
    if (kind === null || countsFrom(event) > now) return [];
    if (receivedAt(event) <= countsFrom(given)) return [];
    const since = instantOf(Math.max(countsFrom(event), countsFrom(given)));
    const known = receivedAt(event);
    const day = dayOf(instantOf(countsFrom(event)));
    return [{ kind, since, day, known, event: event.id, by: event.by, reason: '' }];
  });
}

const suspensions = (log: Log, given: Given, now: number): RestCause[] =>
  log
    .of('authorisation.suspended')
    .filter((event) => event.body.authorisation === given.id && countsFrom(event) <= now)
    .map((event) => ({
      kind: 'suspended',
      since: instantOf(countsFrom(event)),
      day: dayOf(instantOf(countsFrom(event))),
      known: receivedAt(event),
      event: event.id,
      by: event.by,
      reason: event.body.reason,
      suspendedFor: event.body.cause,
    }));

function longBreaks({ breaks, until }: LastUse, now: number): RestCause[] {
  const open = addDays(until, 1);
  return [...breaks, open]
    .filter((day) => startOfDay(day) <= now)
    .map((day) => ({
      kind: 'long-break',
      since: instantOf(startOfDay(day)),
      day,
      // a refresh on the very first instant of that day is already after the break
      known: startOfDay(day) - 1,
      event: null,
      by: null,
      reason: '',
    }));
}

export type Rests = { readonly causes: readonly RestCause[]; readonly lastUse: LastUse };

/** What lays an authorisation to rest at an instant and was not lifted by a refresh since, oldest first. */
export function causesOf(
  log: Log,
  given: Given,
  asked: { now: number; breakMonths: number },
): Rests {
  const { breakMonths, now } = asked;
  const refreshes = refreshesOf(log, given, now);
  const lastUse = lastUseOf(usesOf(log, given, now), given.body.statement.from, breakMonths);
  const all = [
    ...nearMisses(log, given, now),
    ...benchChanges(log, given, now),
    ...suspensions(log, given, now),
    ...longBreaks(lastUse, now),
  ];
  const causes = all
    .filter((cause) => !refreshes.some((refresh) => lifts(refresh, cause)))
    .sort((a, b) => timeOf(a.since) - timeOf(b.since) || (a.kind < b.kind ? -1 : 1));
  return { causes, lastUse };
}
