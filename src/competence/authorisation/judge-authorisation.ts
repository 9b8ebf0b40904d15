import {
  addMonths,
  type Day,
  dayOf,
  earlierOf,
  endOfDay,
  type Instant,
  startOfDay,
} from '../dates.ts';
import { countsFrom, timeOf } from '../log/instants.ts';
import type { GivenStatement } from '../log/log-event.ts';
import { type Log, readLog } from '../log/read-log.ts';
import { heldRole } from '../log/role-at.ts';
import { rulesAt } from '../rules/organisation-rules.ts';
import { statusOf } from '../status/work-status.ts';
import { onDay, sayToldInEnglish, shortName, type Told, tell } from '../told/told.ts';
import type { AuthorisationQuestion } from './authorisations.ts';
import { causesOf, type RestCause } from './causes.ts';
import { type Given, refreshesOf } from './refreshes.ts';
import { secondOf } from './second.ts';
import { tellCause, tellEnd, tellSignOffs } from './tell-authorisation.ts';

export type AuthorisationState = 'in-force' | 'not-started' | 'awaits-second' | 'rests' | 'ended';

/** One line on why: one clause, no full stop, in English, and the same as data. */
export type Because = { readonly told: Told; readonly text: string };

export type AuthorisationStatus = {
  readonly id: string;
  readonly statement: GivenStatement;
  readonly givenAt: Instant;
  readonly state: AuthorisationState;
  /** last day it can hold: the earliest of its own end, the interval, the last use and its ending */
  readonly until: Day;
  /** what lays it to rest and was not lifted; a lifted cause is not among them */
  readonly causes: readonly RestCause[];
  /** kinds of work whose units are not all signed off */
  readonly lacking: readonly string[];
  readonly because: readonly Because[];
  readonly refreshedAt: Instant | null;
};

/** Whether whoever gave it could: a trainer or the employer, under their own name, for somebody else. */
function couldGive(given: Given, log: Log): boolean {
  const { by, who } = given.body.statement;
  if (given.by !== by.person || by.person === who.person) return false;
  return heldRole(log, { person: given.by, at: countsFrom(given) }, ['trainer', 'employer']);
}

/** Only while a supervisor is at the bench: because the paper says so, or because of the person's age. */
export const needsSupervisor = ({ age, supervised }: GivenStatement): boolean =>
  supervised === 'always' || age.answer === 'young-under-supervision';

type Ends = { readonly until: Day; readonly told: Told | null };

/** When it is over for good, and why if that is already so. */
function endsOf(given: Given, log: Log, asked: AuthorisationQuestion): Ends {
  const now = timeOf(asked.at);
  const { from, until: own, by } = given.body.statement;
  const giver = shortName(asked.nameOf(by.person));
  const until = earlierOf(own, addMonths(from, rulesAt(log, now).months));
  if (given.altered === true) return { until, told: tell('leave.altered') };
  if (!couldGive(given, log)) return { until, told: tell('leave.not-valid', { giver }) };
  const ended = log
    .of('authorisation.ended')
    .find((one) => one.body.authorisation === given.id && countsFrom(one) <= now);
  if (ended !== undefined) {
    return { until: earlierOf(until, dayOf(ended.at)), told: tellEnd(ended, asked.nameOf) };
  }
  const isOver = now >= endOfDay(until);
  return { until, told: isOver ? tell('leave.over', { giver, until: onDay(until) }) : null };
}

/** Where one authorisation stands for some of its kinds of work. */
export function judgeAuthorisation(
  given: Given,
  asked: AuthorisationQuestion,
  works: readonly string[],
): AuthorisationStatus {
  const { at, nameOf, person } = asked;
  const log = readLog(asked.events);
  const now = timeOf(at);
  const { statement } = given.body;
  const giver = shortName(nameOf(statement.by.person));
  const ends = endsOf(given, log, asked);
  const { breakMonths } = rulesAt(log, now);
  const { causes, lastUse } = causesOf(log, given, { now, breakMonths });
  const second = secondOf(log, given, now);
  const standings = works.map((work) => ({
    work,
    status: statusOf({ ...asked, person, bench: statement.bench.id, work }),
  }));
  const open = standings.filter(({ status }) => status.state !== 'signed-off');
  const waits = second.isNeeded && (!second.isThere || second.disagreed !== null);
  const until = earlierOf(ends.until, lastUse.until);

  const tellState = (): { state: AuthorisationState; told: readonly Told[] } => {
    if (ends.told !== null) return { state: 'ended', told: [ends.told] };
    const rests = [
      ...causes.map((cause) => tellCause(cause, nameOf)),
      ...open.map(({ work, status }) => tellSignOffs(work, status)),
    ];
    if (waits) {
      const told =
        second.disagreed === null
          ? tell('leave.awaits-second', { giver })
          : tell('leave.not-agreed', { giver, second: shortName(nameOf(second.disagreed)) });
      return { state: 'awaits-second', told: [told, ...rests] };
    }
    if (now < startOfDay(statement.from)) {
      const told = tell('leave.not-started', { giver, from: onDay(statement.from) });
      return { state: 'not-started', told: [told, ...rests] };
    }
    if (rests.length > 0) return { state: 'rests', told: rests };
    const kind = needsSupervisor(statement) ? 'leave.supervised' : 'leave.in-force';
    return { state: 'in-force', told: [tell(kind, { giver, until: onDay(until) })] };
  };
  const { state, told } = tellState();
  return {
    id: given.id,
    statement,
    givenAt: given.at,
    state,
    until,
    causes,
    lacking: open.map(({ work }) => work),
    because: told.map((one) => ({ told: one, text: sayToldInEnglish(one) })),
    refreshedAt: refreshesOf(log, given, now).at(-1)?.instant ?? null,
  };
}
