import { addMonths, type Day, earlierOf, endOfDay, type Instant, startOfDay } from '../dates.ts';
import { timeOf } from '../log/instants.ts';
import type { LogEvent, PracticalSigned, PracticalWithdrawn } from '../log/log-event.ts';
import { readLog } from '../log/read-log.ts';
import { rulesAt } from '../rules/organisation-rules.ts';
import type { Told } from '../told/told.ts';
import { standingPracticals } from './deciding.ts';
import type { Evidence } from './evidence.ts';
import { type RuleLine, weighEvidence } from './weigh-evidence.ts';

/** Where a person stands with one unit, on one bench, for one kind of work. */
export type UnitState = 'signed-off' | 'not-yet' | 'ended' | 'withdrawn';

type Decided =
  | {
      readonly state: 'signed-off' | 'ended';
      readonly by: PracticalSigned;
      /** last day it holds: the earlier of its own and the organisation's interval */
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
  | {
      readonly state: 'not-yet';
      readonly why: 'not-agreed';
      readonly by: PracticalSigned;
      /** who did not agree */
      readonly second: string;
    }
  | {
      readonly state: 'not-yet';
      /** what was watched holds, and more is asked: `missing` says what first */
      readonly why: 'evidence';
      readonly by: PracticalSigned;
      readonly missing: Told;
    }
  | {
      readonly state: 'not-yet';
      /** `seen`: watched, and not signed off; `stopped`: an error in another unit ended the practical */
      readonly why:
        | 'seen'
        | 'stopped'
        | 'altered'
        | 'watch-again'
        | 'awaits-cosign'
        | 'old-version';
      readonly by: PracticalSigned;
    }
  | { readonly state: 'not-yet'; readonly why: 'none'; readonly by: null };

/** What decided it, as data, with every rule met or missing. */
export type UnitStatus = Decided & { readonly rules: readonly RuleLine[] };

export type UnitQuestion = {
  /** the whole log, in any order */
  readonly events: readonly LogEvent[];
  readonly person: string;
  readonly bench: string;
  readonly work: string;
  readonly unit: { readonly id: string; readonly evidence: Evidence };
  readonly at: Instant;
};

/**
 * The standing of one person in one unit at an instant. Pure, and the newest practical decides: a
 * later "not yet" ends an earlier sign-off, and taking a sign-off back never brings an older one to
 * life again. Nothing done on a screen is looked at.
 */
export function unitStatusOf(question: UnitQuestion): UnitStatus {
  const log = readLog(question.events);
  const now = timeOf(question.at);
  const { person, bench, work, unit } = question;
  const place = { person, bench, work, unit: unit.id };
  const { months } = rulesAt(log, now);
  const { held, waiting } = standingPracticals(log, place, now);
  const weighed = weighEvidence({ log, now, place, evidence: unit.evidence, held, waiting });
  const until = (event: PracticalSigned, last: Day): Day =>
    earlierOf(last, addMonths(event.body.statement.observedAt, months));

  const decide = (): Decided => {
    const newest = held[0];
    if (newest === undefined) {
      return waiting[0] === undefined
        ? { state: 'not-yet', why: 'none', by: null }
        : { state: 'not-yet', why: 'awaits-cosign', by: waiting[0].event };
    }
    const { disagreed, event: by, stop, watchAgain, withdrawal } = newest;
    if (by.altered === true) return { state: 'not-yet', why: 'altered', by };
    const { decision, validFrom, validUntil } = by.body.statement;
    // the record refuses a sign-off without its two days; without them nothing would hold
    if (decision === 'not-yet' || validFrom === null || validUntil === null) {
      return { state: 'not-yet', why: watchAgain ? 'watch-again' : 'seen', by };
    }
    if (withdrawal !== null) return { state: 'withdrawn', by, withdrawal };
    if (stop !== null) return { state: 'not-yet', why: 'stopped', by };
    if (watchAgain) return { state: 'not-yet', why: 'watch-again', by };
    if (disagreed !== null) return { state: 'not-yet', why: 'not-agreed', by, second: disagreed };
    if (!weighed.isNewEnough(by)) return { state: 'not-yet', why: 'old-version', by };
    const { missing } = weighed;
    if (missing !== null) return { state: 'not-yet', why: 'evidence', by, missing };
    if (now < startOfDay(validFrom)) {
      return { state: 'not-yet', why: 'not-started', by, from: validFrom };
    }
    const last = until(by, validUntil);
    return { state: now < endOfDay(last) ? 'signed-off' : 'ended', by, until: last };
  };
  const decided = decide();
  const dated = decided.state === 'signed-off' || decided.state === 'ended';
  return { ...decided, rules: weighed.lines(dated ? decided : null) };
}
