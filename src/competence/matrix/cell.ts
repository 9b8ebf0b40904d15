import type { Because } from '../authorisation/judge-authorisation.ts';
import type { MayWork, MayWorkQuestion } from '../authorisation/may-work.ts';
import { mayWork } from '../authorisation/may-work.ts';
import { addDays, type Day, dayOf, type Instant } from '../dates.ts';
import { countsFrom, receivedAt, timeOf } from '../log/instants.ts';
import type { LogEvent } from '../log/log-event.ts';
import { readLog } from '../log/read-log.ts';
import { statusOf, type WorkStatus } from '../status/work-status.ts';
import { type LateEntry, lateEntries, lateEntriesAt } from './late-entries.ts';
import { sinceWhen } from './since-when.ts';

/** `rests`: authorised in writing, and that rests; they may not work. */
export type MatrixState = 'may' | 'may-supervised' | 'rests' | 'may-not';

/** What one person may do at one bench in one kind of work at an instant, and why. */
export type MatrixCell = {
  readonly person: string;
  readonly bench: string;
  readonly work: string;
  readonly state: MatrixState;
  /** since when without a break; null for who may not */
  readonly since: Instant | null;
  /** last day it can hold by what is known; null for who may not */
  readonly until: Day | null;
  /** the authorisation it comes from, or the one that comes nearest; null when none was given */
  readonly authorisation: {
    readonly id: string;
    /** opaque id of who gave it */
    readonly by: string;
    readonly from: Day;
    readonly until: Day;
  } | null;
  readonly because: readonly Because[];
  /** the sign-offs beneath it, unit by unit */
  readonly status: WorkStatus;
  /** what entered the log after the instant and counts from before it */
  readonly later: readonly LateEntry[];
  /**
   * what the site would have said at that instant, or, where it was asked for what it said then, what is known
   * today; null where the later entries make no difference
   */
  readonly otherwise: MatrixState | null;
};

/** Which records count: all that are known now, or what the site had received by then. */
export type Known = 'now' | 'then';

export const stateOf = ({ state, authorisation }: MayWork): MatrixState =>
  state === 'may-not' && authorisation?.state === 'rests' ? 'rests' : state;

/** What counts from later has not happened yet, whatever order it was received in. */
function heldBy(events: readonly LogEvent[], at: Instant): readonly LogEvent[] {
  const now = timeOf(at);
  const isEarly = (event: LogEvent) => countsFrom(event) <= now;
  return events.every(isEarly) ? events : events.filter(isEarly);
}

const heldThen = (events: readonly LogEvent[], at: Instant): readonly LogEvent[] =>
  events.filter((event) => receivedAt(event) <= timeOf(at));

/** The places of one person, worked out one after another from one reading of their events. */
export function cellsOf(
  asked: Omit<MayWorkQuestion, 'bench' | 'work'>,
  known: Known = 'now',
): (place: { readonly bench: string; readonly work: string }) => MatrixCell {
  const all = heldBy(asked.events, asked.at);
  const late = lateEntries(all, asked.at);
  const then = late.length === 0 ? all : heldThen(all, asked.at);
  const events = known === 'then' ? then : all;
  return (place) => {
    const question: MayWorkQuestion = { ...asked, ...place, events };
    const may = mayWork(question);
    const state = stateOf(may);
    const later = lateEntriesAt(all, late, place);
    const other = known === 'then' ? all : then;
    const otherwise = later.length === 0 ? state : stateOf(mayWork({ ...question, events: other }));
    const { authorisation } = may;
    return {
      person: asked.person,
      ...place,
      state,
      since: sinceWhen(question, may),
      until: may.until,
      authorisation:
        authorisation === null
          ? null
          : {
              id: authorisation.id,
              by: authorisation.statement.by.person,
              from: authorisation.statement.from,
              until: authorisation.until,
            },
      because: may.because,
      status: statusOf(question),
      later,
      otherwise: otherwise === state ? null : otherwise,
    };
  };
}

/**
 * As much of a person's cells as is counted, and none of those in which they may not work: what is asked of
 * everybody in a large shop.
 */
export function countedCellsOf(
  asked: Omit<MayWorkQuestion, 'bench' | 'work'>,
  places: readonly { readonly bench: string; readonly work: string }[],
  known: Known = 'now',
): Pick<MatrixCell, 'bench' | 'work' | 'state' | 'until'>[] {
  const all = heldBy(asked.events, asked.at);
  const events = known === 'then' ? heldThen(all, asked.at) : all;
  const given = readLog(events).of('authorisation.given');
  return places
    .filter(({ bench, work }) =>
      given.some(({ body }) => {
        const { statement } = body;
        return statement.bench.id === bench && statement.work.includes(work);
      }),
    )
    .map((place) => ({ place, may: mayWork({ ...asked, ...place, events }) }))
    .map(({ place, may }) => ({ ...place, state: stateOf(may), until: may.until }))
    .filter(({ state }) => state !== 'may-not');
}

/** Whether what a cell lets somebody do ends within some days of an instant. */
export const endsWithin = (
  { until }: Pick<MatrixCell, 'until'>,
  at: Instant,
  days: number,
): boolean => until !== null && until <= addDays(dayOf(at), days);
