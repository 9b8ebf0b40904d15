import type { Instant } from '../dates.ts';
import { countsFrom, timeOf } from '../log/instants.ts';
import type { LogEvent } from '../log/log-event.ts';
import { readLog } from '../log/read-log.ts';
import { roleHeld } from '../log/role-at.ts';
import type { NeededUnit } from '../status/work-status.ts';

/** Somebody the accounts know. */
export type MatrixPerson = {
  readonly person: string;
  /** the role today, for a log that says nothing of it */
  readonly role: string;
  /** when the account was made; left out, they were always here */
  readonly joinedAt?: Instant;
};

/** What a matrix is worked out from. */
export type MatrixLog = {
  /** the events in the order they were entered, copies or not */
  readonly events: readonly LogEvent[];
  /** those here today, in the order they are to be listed */
  readonly people: readonly MatrixPerson[];
  readonly units: readonly NeededUnit[];
  readonly nameOf: (person: string) => string;
};

/** Kinds that bear on one person alone. */
const OF_ONE = /^(practical|practice|authorisation|appeal)\./;
/** Kinds that bear on everybody: machines, near misses, rules. Attempts and tests bear on nobody's leave. */
const OF_ALL = /^(bench\.|near-miss\.|organisation\.rules-set$)/;
const isRole = ({ kind }: LogEvent): boolean => kind.startsWith('person.');
/** Checks of a sound machine bear on nobody but who did them: they show that the bench was used. */
const isSoundCheck = ({ kind, body }: LogEvent): boolean =>
  kind === 'bench.checked' && 'verdict' in body && body.verdict === 'fit';

/** The log cut so that a question about one person reads no other person's events. */
export type CutLog = {
  /** machines, rules, near misses, and the roles of those who signed anything */
  readonly shared: readonly LogEvent[];
  /** a person's own events with what is shared; the same list each time */
  readonly of: (person: string) => readonly LogEvent[];
  /** everybody something of their own was entered about */
  readonly named: readonly string[];
};

const cut = new WeakMap<readonly LogEvent[], CutLog>();

/** Cuts a log once; the same list gives the same cut. */
export function cutLog(events: readonly LogEvent[]): CutLog {
  const known = cut.get(events);
  if (known !== undefined) return known;
  const signers = new Set(events.filter((one) => !isRole(one)).map(({ by }) => by));
  const shared: LogEvent[] = [];
  const own = new Map<string, LogEvent[]>();
  const file = (person: string | null, event: LogEvent) => {
    if (person === null) return;
    const drawer = own.get(person);
    if (drawer === undefined) own.set(person, [event]);
    else drawer.push(event);
  };
  for (const event of events) {
    if (OF_ONE.test(event.kind)) file(event.about, event);
    else if (isRole(event)) {
      if (signers.has(event.about ?? '')) shared.push(event);
      else file(event.about, event);
    } else if (isSoundCheck(event)) file(event.by, event);
    else if (OF_ALL.test(event.kind)) shared.push(event);
  }
  const asked = new Map<string, readonly LogEvent[]>();
  const made: CutLog = {
    shared,
    of: (person) => {
      const before = asked.get(person);
      if (before !== undefined) return before;
      const found = [...shared, ...(own.get(person) ?? [])];
      asked.set(person, found);
      return found;
    },
    named: [...own.keys()],
  };
  cut.set(events, made);
  return made;
}

/** Somebody as they stood in the organisation at an instant. */
export type ThenPerson = {
  readonly person: string;
  /** null where the log and the accounts say nothing */
  readonly role: string | null;
  /** false for somebody who has left since: the log still holds their id */
  readonly isHere: boolean;
};

/**
 * Who a matrix of an instant lists: everybody here now who was here then, and everybody who held leave in
 * writing by then and has left since. Employers stand at no bench.
 */
export function peopleThen(log: MatrixLog, at: Instant): ThenPerson[] {
  const { named, of } = cutLog(log.events);
  const now = timeOf(at);
  const here = new Set(log.people.map(({ person }) => person));
  const then = log.people.flatMap(({ person, role, joinedAt }): ThenPerson[] => {
    const isEarly = joinedAt !== undefined && timeOf(joinedAt) > now;
    if (isEarly && !wasGivenLeave(of(person), person, now)) return [];
    return [{ person, role: roleHeld(readLog(of(person)), person, now) ?? role, isHere: true }];
  });
  const gone = named
    .filter((person) => !here.has(person) && wasGivenLeave(of(person), person, now))
    .map((person) => ({
      person,
      role: roleHeld(readLog(of(person)), person, now),
      isHere: false,
    }));
  return [...then.filter(({ role }) => role !== 'employer'), ...gone];
}

const wasGivenLeave = (events: readonly LogEvent[], person: string, now: number): boolean =>
  readLog(events)
    .of('authorisation.given')
    .some((one) => one.body.statement.who.person === person && countsFrom(one) <= now);
