import type { Day, Instant } from '../dates.ts';
import { fileBy } from '../log/file-by.ts';
import { countsFrom } from '../log/instants.ts';
import type { EventOf } from '../log/log-event.ts';
import type { Log } from '../log/read-log.ts';
import { heldRole } from '../log/role-at.ts';

export type Given = EventOf<'authorisation.given'>;

/** One time an authorisation was gone through again with the person at the machine. */
export type Refresh = {
  /** milliseconds since 1970 */
  readonly at: number;
  readonly instant: Instant;
  readonly by: string;
  /** the day the practical it names was watched; null for a talk, which lifts a cause of any day */
  readonly observed: Day | null;
};

const refreshesFor = fileBy('authorisation.refreshed', ({ body }) => body.authorisation);

/** The day the practical named was watched, or undefined when it is no sign-off of this person at this bench. */
function observedOf(log: Log, given: Given, signoff: string, now: number): Day | undefined {
  const { bench, who } = given.body.statement;
  const signed = log.of('practical.signed').find(({ body }) => body.signoff === signoff);
  if (signed === undefined || signed.altered === true || countsFrom(signed) > now) return undefined;
  const { statement } = signed.body;
  const isTheirs = statement.who.person === who.person && statement.bench.id === bench.id;
  const isSignedOff = statement.decision === 'signed-off' && signed.by !== who.person;
  const isWithdrawn = log
    .of('practical.withdrawn')
    .some((one) => one.body.signoff === signoff && countsFrom(one) <= now);
  return isTheirs && isSignedOff && !isWithdrawn ? statement.observedAt : undefined;
}

/** The refreshes of an authorisation that count at an instant: by a trainer who is somebody else. */
export function refreshesOf(log: Log, given: Given, now: number): Refresh[] {
  const { who } = given.body.statement;
  return refreshesFor(log, given.id)
    .filter((event) => event.altered !== true)
    .filter((event) => countsFrom(event) <= now && event.by !== who.person)
    .filter((event) => heldRole(log, { person: event.by, at: countsFrom(event) }, ['trainer']))
    .flatMap((event): Refresh[] => {
      const at = countsFrom(event);
      const instant = new Date(at).toISOString();
      if (event.body.how === 'talked-through') {
        return [{ at, instant, by: event.by, observed: null }];
      }
      const observed = observedOf(log, given, event.body.signoff ?? '', now);
      return observed === undefined ? [] : [{ at, instant, by: event.by, observed }];
    });
}

/** Something that lays an authorisation to rest. */
export type Cause = {
  /** when it was known here, milliseconds since 1970 */
  readonly known: number;
  /** the day it happened on */
  readonly day: Day;
};

/** Whether a refresh came after a cause; a practical must have been watched on the cause's day or later. */
export const lifts = (refresh: Refresh, cause: Cause): boolean =>
  refresh.at > cause.known && (refresh.observed === null || refresh.observed >= cause.day);
