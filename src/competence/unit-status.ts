import { type Day, endOfDay, type Instant, startOfDay } from './dates.ts';
import {
  isSigned,
  isWithdrawn,
  type LogEvent,
  type PracticalSigned,
  type PracticalWithdrawn,
  roleAt,
} from './evidence.ts';

/** Where a person stands with one unit, on one bench, for one kind of work. */
export type UnitState = 'signed-off' | 'not-yet' | 'ended' | 'withdrawn';

/** What decided it, as data. `say-status.ts` turns it into a sentence. */
export type UnitStatus =
  | {
      readonly state: 'signed-off' | 'ended';
      readonly by: PracticalSigned;
      /** last day it holds */
      readonly until: Day;
    }
  | {
      readonly state: 'withdrawn';
      readonly by: PracticalSigned;
      readonly withdrawal: PracticalWithdrawn;
    }
  | {
      readonly state: 'not-yet';
      readonly why: 'not-started';
      readonly by: PracticalSigned;
      /** first day it will hold */
      readonly from: Day;
    }
  | { readonly state: 'not-yet'; readonly why: 'seen' | 'altered'; readonly by: PracticalSigned }
  | { readonly state: 'not-yet'; readonly why: 'none'; readonly by: null };

export type UnitQuestion = {
  /** the whole log, in any order */
  readonly events: readonly LogEvent[];
  readonly person: string;
  readonly bench: string;
  readonly work: string;
  readonly unit: string;
  readonly at: Instant;
};

const time = (instant: Instant): number => Date.parse(instant);

/** The instant a withdrawal counts from: the earlier of the two clocks, so that a slow one never keeps a sign-off alive. */
const withdrawnAt = (event: PracticalWithdrawn): number =>
  Math.min(time(event.at), time(event.received));

/** A signature counts when a second person gave it, under their own name, while they were a trainer. */
function counts(event: PracticalSigned, events: readonly LogEvent[]): boolean {
  const { who, trainer } = event.body.statement;
  if (trainer.person === who.person || event.by !== trainer.person) return false;
  const role = roleAt(events, trainer.person, event.at);
  return role === null || role === 'trainer';
}

const observed = (event: PracticalSigned): number => startOfDay(event.body.statement.observedAt);

const newestFirst = (a: PracticalSigned, b: PracticalSigned): number =>
  observed(b) - observed(a) || time(b.at) - time(a.at) || (a.id < b.id ? 1 : -1);

/**
 * The standing of one person in one unit at an instant. Pure, and the newest practical decides: a
 * later "not yet" ends an earlier sign-off, and taking a sign-off back never brings an older one to
 * life again. Nothing done on a screen is looked at.
 */
export function unitStatusOf(question: UnitQuestion): UnitStatus {
  const { events, person, bench, work, unit } = question;
  const now = time(question.at);
  const withdrawals = events.filter((event) => isWithdrawn(event));
  const withdrawalOf = (event: PracticalSigned) =>
    withdrawals
      .filter(({ body }) => body.signoff === event.body.signoff)
      .filter((withdrawal) => withdrawnAt(withdrawal) <= now)[0];

  const practicals = events
    .filter((event) => isSigned(event))
    .filter((event) => {
      const { statement } = event.body;
      return (
        statement.who.person === person &&
        statement.bench.id === bench &&
        statement.work === work &&
        statement.unit.id === unit &&
        counts(event, events)
      );
    })
    .filter((event) => time(event.at) <= now)
    // a "not yet" taken back is as if it had not been written; a sign-off taken back still decides
    .filter(
      (event) =>
        event.body.statement.decision === 'signed-off' || withdrawalOf(event) === undefined,
    )
    .sort(newestFirst);

  const newest = practicals[0];
  if (newest === undefined) return { state: 'not-yet', why: 'none', by: null };
  if (newest.altered === true) return { state: 'not-yet', why: 'altered', by: newest };
  const { statement } = newest.body;
  const { decision, validFrom, validUntil } = statement;
  // the record refuses a sign-off without its two days; without them nothing would hold
  if (decision === 'not-yet' || validFrom === null || validUntil === null) {
    return { state: 'not-yet', why: 'seen', by: newest };
  }
  const withdrawal = withdrawalOf(newest);
  if (withdrawal !== undefined) return { state: 'withdrawn', by: newest, withdrawal };
  if (now < startOfDay(validFrom)) {
    return { state: 'not-yet', why: 'not-started', by: newest, from: validFrom };
  }
  const state = now < endOfDay(validUntil) ? 'signed-off' : 'ended';
  return { state, by: newest, until: validUntil };
}
