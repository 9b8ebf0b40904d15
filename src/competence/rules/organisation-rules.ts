import type { Instant } from '../dates.ts';
import { DEFAULT_INTERVAL } from '../interval.ts';
import { countsFrom, timeOf } from '../log/instants.ts';
import type { LogEvent } from '../log/log-event.ts';
import { type Log, readLog } from '../log/read-log.ts';

/** What an organisation chose for itself. */
export type OrganisationRules = {
  /** calendar months a sign-off and an authorisation may stand, 1 to 60 */
  readonly months: number;
  /** calendar months without work at the bench after which an authorisation rests, 1 to 36 */
  readonly breakMonths: number;
  /** days before an end at which people are reminded, 7 to 180 */
  readonly noticeDays: number;
  /** what needs a second person */
  readonly second: 'nothing' | 'authorisation' | 'practical-and-authorisation';
};

/**
 * Where an organisation chose nothing. Months: see `DEFAULT_INTERVAL`. The long break and the days of
 * notice are our own choice, without a source: guidance speaks of a break and gives no length.
 */
export const DEFAULT_RULES: OrganisationRules = {
  months: DEFAULT_INTERVAL.months,
  breakMonths: 12,
  noticeDays: 60,
  second: 'nothing',
};

export function rulesAt(log: Log, at: number): OrganisationRules {
  const set = log
    .of('organisation.rules-set')
    .filter((event) => event.altered !== true && countsFrom(event) <= at)
    .at(-1);
  if (set === undefined) return DEFAULT_RULES;
  const { months, breakMonths, noticeDays, second } = set.body;
  return { months, breakMonths, noticeDays, second };
}

/** The rules in force at an instant. An altered setting counts for nothing. */
export const rulesOf = (events: readonly LogEvent[], at: Instant): OrganisationRules =>
  rulesAt(readLog(events), timeOf(at));
