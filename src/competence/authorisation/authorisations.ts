import type { Instant } from '../dates.ts';
import { countsFrom, timeOf } from '../log/instants.ts';
import type { LogEvent } from '../log/log-event.ts';
import { readLog } from '../log/read-log.ts';
import type { NeededUnit } from '../status/work-status.ts';
import { type AuthorisationStatus, judgeAuthorisation } from './judge-authorisation.ts';

export type { GivenStatement } from '../log/log-event.ts';
export type { RestCause } from './causes.ts';
export type { AuthorisationState, AuthorisationStatus, Because } from './judge-authorisation.ts';

export type AuthorisationQuestion = {
  /** the whole log, in any order */
  readonly events: readonly LogEvent[];
  readonly person: string;
  readonly at: Instant;
  /** every unit of the course; those for each work are picked here */
  readonly units: readonly NeededUnit[];
  readonly nameOf: (person: string) => string;
};

/**
 * Every authorisation a person was ever given, newest first, and where each stands at an instant. A pure
 * function of the log: in writing, for a named machine and named work, until the earlier of its own end,
 * the organisation's interval and the last use.
 */
export function authorisationsOf(question: AuthorisationQuestion): AuthorisationStatus[] {
  const { events, person, at } = question;
  const log = readLog(events);
  return log
    .of('authorisation.given')
    .filter((given) => given.body.statement.who.person === person)
    .filter((given) => countsFrom(given) <= timeOf(at))
    .reverse()
    .map((given) => judgeAuthorisation(given, question, given.body.statement.work));
}
