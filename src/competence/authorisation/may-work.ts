import { benchStateAt } from '../bench-state/bench-state.ts';
import { type Day, earlierOf } from '../dates.ts';
import { fileBy } from '../log/file-by.ts';
import { countsFrom, timeOf } from '../log/instants.ts';
import { readLog } from '../log/read-log.ts';
import { statusOf } from '../status/work-status.ts';
import { clause, forWork, onDay, sayToldInEnglish, type Told, tell } from '../told/told.ts';
import type { AuthorisationQuestion } from './authorisations.ts';
import {
  type AuthorisationState,
  type AuthorisationStatus,
  type Because,
  judgeAuthorisation,
  needsSupervisor,
} from './judge-authorisation.ts';

export type MayWorkQuestion = AuthorisationQuestion & {
  readonly bench: string;
  readonly work: string;
};

/** Whether a person may do one kind of work on one machine. */
export type MayWork = {
  /** `may-supervised`: only while a supervisor is at the bench */
  readonly state: 'may' | 'may-supervised' | 'may-not';
  /** the authorisation it comes from, or the one that comes nearest; null when none was given */
  readonly authorisation: AuthorisationStatus | null;
  /** last day, by the authorisation and by the sign-offs it rests on; null while they may not */
  readonly until: Day | null;
  readonly because: readonly Because[];
};

const givenTo = fileBy('authorisation.given', ({ body }) => body.statement.who.person);

/** The nearest to being of use first. */
const ORDER: readonly AuthorisationState[] = [
  'in-force',
  'rests',
  'awaits-second',
  'not-started',
  'ended',
];

/** In force without a supervisor before with one, then the one that lasts longer. */
function nearest(all: readonly AuthorisationStatus[]): AuthorisationStatus | null {
  const rank = ({ state, statement }: AuthorisationStatus): number =>
    ORDER.indexOf(state) * 2 + Number(needsSupervisor(statement));
  const sorted = all.toSorted(
    (a, b) => rank(a) - rank(b) || (a.until === b.until ? 0 : a.until < b.until ? 1 : -1),
  );
  return sorted[0] ?? null;
}

/** Why the machine itself may not be used; nothing while it is in service. */
function benchLines(question: MayWorkQuestion): Told[] {
  const { bench, at, events } = question;
  const { state, since, reason, cause } = benchStateAt(readLog(events), bench, timeOf(at));
  if (state === 'in-service') return [];
  const day = onDay(since ?? at);
  return cause === 'not-fit' || reason === null
    ? [tell('bench.not-fit', { day })]
    : [tell('bench.out', { day, reason: clause(reason) })];
}

/**
 * Whether a person may do one kind of work on one machine at an instant: by an authorisation in writing
 * that is in force, whose sign-offs stand, on a machine in service. Pure. It says what the record says,
 * and never that anybody is competent.
 */
export function mayWork(question: MayWorkQuestion): MayWork {
  const { at, bench, events, person, work } = question;
  const now = timeOf(at);
  const candidates = givenTo(readLog(events), person)
    .filter(({ body: { statement } }) => statement.bench.id === bench)
    .filter(({ body: { statement } }) => statement.work.includes(work))
    .filter((given) => countsFrom(given) <= now)
    .map((given) => judgeAuthorisation(given, question, [work]));
  const authorisation = nearest(candidates);
  const out = benchLines(question);
  const leave =
    authorisation === null
      ? [tell('leave.none', { work: forWork(work) })]
      : authorisation.because.map(({ told }) => told);
  const because = [...out, ...leave].map((told) => ({ told, text: sayToldInEnglish(told) }));
  if (authorisation?.state !== 'in-force' || out.length > 0) {
    return { state: 'may-not', authorisation, until: null, because };
  }
  const signed = statusOf(question).until ?? authorisation.until;
  const until = earlierOf(signed, authorisation.until);
  return {
    state: needsSupervisor(authorisation.statement) ? 'may-supervised' : 'may',
    authorisation,
    until,
    because,
  };
}
