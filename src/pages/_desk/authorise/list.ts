import {
  type AuthorisationStatus,
  authorisationsOf,
  type Day,
  dayOf,
} from '../../../competence/index.ts';
import type { Authorisation } from '../../../records/index.ts';
import { eventsOf } from '../events-of.ts';
import type { Workshop } from '../workshop.ts';

/** The states an authorisation can be in, as they are listed. */
export const AUTHORISATION_STATES = [
  'in-force',
  'not-started',
  'awaits-second',
  'rests',
  'ended',
] as const satisfies readonly AuthorisationStatus['state'][];

/** An authorisation with whose it is, as it stands at an instant. */
export type ListedAuthorisation = {
  readonly status: AuthorisationStatus;
  readonly statement: Authorisation;
  readonly name: string;
};

/** The whole statements by id, as they were signed: the status reads only some of their fields. */
export function statementsOf({ events }: Pick<Workshop, 'events'>): Map<string, Authorisation> {
  return new Map(
    events.flatMap((event) =>
      event.kind === 'authorisation.given'
        ? [[event.id, (event.body as { statement: Authorisation }).statement] as const]
        : [],
    ),
  );
}

/** Authorisations of some people, whose records were read, at an instant: by name, the newest first. */
export function listAuthorisations(
  workshop: Workshop,
  at: string,
  people: readonly string[],
): ListedAuthorisation[] {
  const statements = statementsOf(workshop);
  const { units, nameOf } = workshop;
  return people
    .flatMap((one) =>
      authorisationsOf({ events: eventsOf(workshop, one), person: one, at, units, nameOf }).flatMap(
        (status) => {
          const statement = statements.get(status.id);
          return statement === undefined ? [] : [{ status, statement, name: nameOf(one) }];
        },
      ),
    )
    .sort(
      (a, b) =>
        a.name.localeCompare(b.name, 'en') || (a.statement.from < b.statement.from ? 1 : -1),
    );
}

export type AuthorisationFilter = {
  readonly person: string;
  readonly bench: string;
  readonly work: string;
  readonly state: string;
};

/** As much of an authorisation as a list is narrowed by, whosever it is. */
export type LeaveMark = {
  readonly bench: string;
  readonly work: readonly string[];
  readonly state: AuthorisationStatus['state'];
};

export const markOf = ({
  state,
  statement,
}: Pick<AuthorisationStatus, 'state' | 'statement'>): LeaveMark => ({
  bench: statement.bench.id,
  work: statement.work,
  state,
});

/** Whether it fits every part of a filter that is filled in; whose it is is not looked at. */
export const fitsLeave = (
  leave: LeaveMark,
  { bench, work, state }: Pick<AuthorisationFilter, 'bench' | 'work' | 'state'>,
): boolean =>
  (bench === '' || leave.bench === bench) &&
  (work === '' || leave.work.includes(work)) &&
  (state === '' || leave.state === state);

/** Those that fit every part of a filter that is filled in. */
export const filterAuthorisations = (
  all: readonly ListedAuthorisation[],
  filter: AuthorisationFilter,
): ListedAuthorisation[] =>
  all.filter(
    ({ statement, status }) =>
      (filter.person === '' || statement.who.person === filter.person) &&
      fitsLeave(markOf(status), filter),
  );

/** The instant a day is looked at: now for today, the last moment of any other day. */
export const instantOf = (day: Day, now: string): string =>
  day === dayOf(now) ? now : `${day}T23:59:59.999Z`;
