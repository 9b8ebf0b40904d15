import type { Instant } from '../dates.ts';
import { fileBy } from '../log/file-by.ts';
import { countsFrom, timeOf } from '../log/instants.ts';
import type { EventOf, LogEvent } from '../log/log-event.ts';
import { type Log, readLog } from '../log/read-log.ts';

const HOUR = 3_600_000;

/** Time at the machine under somebody's eyes. */
export type PracticeSession = {
  readonly id: string;
  readonly person: string;
  readonly bench: string;
  readonly work: string;
  readonly supervisor: string;
  readonly startedAt: Instant;
  readonly endedAt: Instant;
  /** h */
  readonly hours: number;
  readonly done: string;
  /** `awaits`: the supervisor has not said yet whether it was so; only `confirmed` counts */
  readonly state: 'awaits' | 'confirmed' | 'refused';
  /** when the supervisor answered, and what they wrote with it */
  readonly answeredAt: Instant | null;
  readonly note: string | null;
};

/** What was confirmed at one bench for one kind of work. */
export type PracticeSum = {
  readonly bench: string;
  readonly work: string;
  readonly sessions: number;
  /** h; time noted twice is counted once */
  readonly hours: number;
};

export type Practice = {
  /** newest first */
  readonly sessions: readonly PracticeSession[];
  readonly confirmed: readonly PracticeSum[];
};

type Noted = EventOf<'practice.noted'>;

const notedBy = fileBy('practice.noted', ({ about }) => about ?? '');
const answersTo = fileBy('practice.confirmed', ({ body }) => body.session);

/** The supervisor's last word. A yes that was altered is none; an altered no still refuses. */
const answerTo = (log: Log, noted: Noted, now: number) =>
  answersTo(log, noted.body.session)
    .filter((event) => countsFrom(event) <= now)
    .filter((event) => event.by === noted.body.supervisor && event.by !== noted.about)
    .filter((event) => event.altered !== true || event.body.answer === 'no')
    .at(-1);

function toSession(log: Log, noted: Noted, now: number): PracticeSession {
  const { body, about } = noted;
  const answer = answerTo(log, noted, now);
  const said = answer?.body.answer === 'yes' ? 'confirmed' : 'refused';
  return {
    id: body.session,
    person: about ?? '',
    bench: body.bench,
    work: body.work,
    supervisor: body.supervisor,
    startedAt: body.startedAt,
    endedAt: body.endedAt,
    hours: (timeOf(body.endedAt) - timeOf(body.startedAt)) / HOUR,
    done: body.done,
    state: answer === undefined ? 'awaits' : said,
    answeredAt: answer?.at ?? null,
    note: answer?.body.note ?? null,
  };
}

/** Hours covered by the sessions together. */
function hoursTogether(sessions: readonly PracticeSession[]): number {
  let covered = 0;
  let reached = Number.NEGATIVE_INFINITY;
  for (const { startedAt, endedAt } of [...sessions].sort(
    (a, b) => timeOf(a.startedAt) - timeOf(b.startedAt),
  )) {
    const [start, end] = [Math.max(timeOf(startedAt), reached), timeOf(endedAt)];
    if (end > start) covered += end - start;
    reached = Math.max(reached, end);
  }
  return covered / HOUR;
}

export function practiceAt(log: Log, person: string, now: number): Practice {
  const sessions = notedBy(log, person)
    .filter((event) => event.altered !== true)
    .filter((event) => countsFrom(event) <= now && timeOf(event.body.endedAt) <= now)
    .filter((event) => event.body.supervisor !== person)
    .map((event) => toSession(log, event, now))
    .sort((a, b) => timeOf(b.endedAt) - timeOf(a.endedAt) || (a.id < b.id ? 1 : -1));
  const groups = Map.groupBy(
    sessions.filter(({ state }) => state === 'confirmed'),
    ({ bench, work }) => `${bench} ${work}`,
  );
  const confirmed = [...groups.values()].map((group): PracticeSum => {
    const { bench, work } = group[0] as PracticeSession;
    return { bench, work, sessions: group.length, hours: hoursTogether(group) };
  });
  confirmed.sort((a, b) => (`${a.bench} ${a.work}` < `${b.bench} ${b.work}` ? -1 : 1));
  return { sessions, confirmed };
}

/**
 * A person's practice at the machines at an instant, and what of it the supervisors confirmed. Nobody
 * confirms their own, and only the supervisor named can.
 */
export const practiceOf = (events: readonly LogEvent[], person: string, at: Instant): Practice =>
  practiceAt(readLog(events), person, timeOf(at));
