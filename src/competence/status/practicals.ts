import { startOfDay } from '../dates.ts';
import { fileBy } from '../log/file-by.ts';
import { countsFrom } from '../log/instants.ts';
import type { EventOf, PracticalSigned, PracticalWithdrawn } from '../log/log-event.ts';
import type { Log } from '../log/read-log.ts';
import { heldRole } from '../log/role-at.ts';
import { stopOf } from './stops.ts';

/** One signed practical with all that was said about it since. */
export type Watched = {
  readonly event: PracticalSigned;
  readonly withdrawal: PracticalWithdrawn | null;
  /** id of the trainer whose co-signature disagrees; null when none does */
  readonly disagreed: string | null;
  /** a second trainer agreed */
  readonly agreed: boolean;
  /** an appeal was settled so that another trainer is to watch it again */
  readonly watchAgain: boolean;
  /** what stopped the same practical in another unit: a stop ends all of them */
  readonly stop: PracticalSigned | null;
};

/** Which practicals are asked for: of one person, in one unit, at one bench, for one kind of work. */
export type Place = {
  readonly person: string;
  readonly bench: string;
  readonly work: string;
  readonly unit: string;
};

/** A signature counts when a second person gave it, under their own name, while they were a trainer. */
function isAuthentic(event: PracticalSigned, log: Log): boolean {
  const { who, trainer } = event.body.statement;
  if (trainer.person === who.person || event.by !== trainer.person) return false;
  return heldRole(log, { person: trainer.person, at: countsFrom(event) }, ['trainer']);
}

const observed = (event: PracticalSigned): number => startOfDay(event.body.statement.observedAt);

const newestFirst = (a: PracticalSigned, b: PracticalSigned): number =>
  observed(b) - observed(a) || countsFrom(b) - countsFrom(a) || (a.id < b.id ? 1 : -1);

const withdrawalsOf = fileBy('practical.withdrawn', ({ body }) => body.signoff);
const cosignsOf = fileBy('practical.cosigned', ({ body }) => body.statement.signoff);
const answersTo = fileBy('practical.answered', ({ body }) => body.signoff);
const outcomesOf = fileBy('appeal.settled', ({ body }) => body.appeal);

/** The last word of each trainer who co-signed, neither the signer nor the person watched. */
function cosignaturesOf(event: PracticalSigned, log: Log, now: number) {
  const { signoff, statement } = event.body;
  const last = new Map<string, EventOf<'practical.cosigned'>>();
  for (const one of cosignsOf(log, signoff)) {
    const { answer, trainer } = one.body.statement;
    const apart = ![statement.trainer.person, statement.who.person].includes(one.by);
    const counts = apart && one.by === trainer.person && countsFrom(one) <= now;
    // an altered yes is none; an altered no still stands
    const sound = one.altered !== true || answer === 'disagrees';
    if (!counts || !sound) continue;
    if (heldRole(log, { person: one.by, at: countsFrom(one) }, ['trainer'])) last.set(one.by, one);
  }
  return [...last.values()];
}

/** Whether an appeal of the person watched was last settled as "watch again", by neither of the two. */
function isToWatchAgain(event: PracticalSigned, log: Log, now: number): boolean {
  const { signoff, statement } = event.body;
  const { person } = statement.who;
  const appeals = answersTo(log, signoff).filter(
    ({ body, by }) => body.answer === 'appeals' && by === person,
  );
  return appeals.some((appeal) => {
    const settled = outcomesOf(log, appeal.id)
      .filter((one) => countsFrom(one) <= now)
      .filter((one) => one.by !== person && one.by !== statement.trainer.person)
      .filter((one) => one.altered !== true || one.body.outcome === 'watch-again');
    return settled.at(-1)?.body.outcome === 'watch-again';
  });
}

function toWatched(event: PracticalSigned, log: Log, now: number): Watched {
  const withdrawal = withdrawalsOf(log, event.body.signoff).find((one) => countsFrom(one) <= now);
  const cosignatures = cosignaturesOf(event, log, now);
  const against = cosignatures.find(({ body }) => body.statement.answer === 'disagrees');
  return {
    event,
    withdrawal: withdrawal ?? null,
    disagreed: against?.by ?? null,
    agreed: cosignatures.some(({ body }) => body.statement.answer === 'agrees'),
    watchAgain: isToWatchAgain(event, log, now),
    stop: stopOf(log, event, now),
  };
}

const keyOf = ({ person, bench, work, unit }: Place): string =>
  JSON.stringify([person, bench, work, unit]);
const practicalsIn = fileBy('practical.signed', ({ body: { statement } }) =>
  keyOf({
    person: statement.who.person,
    bench: statement.bench.id,
    work: statement.work,
    unit: statement.unit.id,
  }),
);

/** The practicals of one place that a second person signed by an instant, newest first. */
export const practicalsAt = (log: Log, place: Place, now: number): Watched[] =>
  practicalsIn(log, keyOf(place))
    .filter((event) => countsFrom(event) <= now && isAuthentic(event, log))
    .sort(newestFirst)
    .map((event) => toWatched(event, log, now));
