import { addMonths, type Day, rulesOf, type WorkStatus } from '../../../competence/index.ts';
import { standingOf, type Workshop } from '../workshop.ts';

/** One kind of work of a bench, and whether somebody can be authorised for it. */
export type WorkOffer = {
  readonly work: Workshop['benches'][number]['work'][number];
  /** every unit it needs is signed off and in force */
  readonly offered: boolean;
  readonly status: WorkStatus;
};

/** Every kind of work of a bench, with where the person stands: only what is signed off in full is offered. */
export function offersFor(
  workshop: Workshop,
  { person, bench, at }: { readonly person: string; readonly bench: string; readonly at: string },
): WorkOffer[] {
  const found = workshop.benches.find(({ id }) => id === bench);
  return (found?.work ?? []).map((work) => {
    const status = standingOf(workshop, { person, bench, work, at });
    return { work, offered: status.state === 'signed-off' && status.until !== null, status };
  });
}

/** The last day an authorisation may be given to, and what sets it. */
export type LastDay = {
  readonly day: Day;
  readonly by: 'interval' | 'sign-offs';
  /** the organisation's interval, calendar months */
  readonly months: number;
};

/** The earlier of the organisation's interval from the first day, and the first of the sign-offs to end. */
export function lastDayFor(
  workshop: Workshop,
  offers: readonly WorkOffer[],
  { from, at }: { readonly from: Day; readonly at: string },
): LastDay {
  const { months } = rulesOf(workshop.events, at);
  const byInterval = addMonths(from, months);
  const ends = offers.flatMap(({ status }) => (status.until === null ? [] : [status.until]));
  const first = [...ends].sort()[0];
  return first !== undefined && first < byInterval
    ? { day: first, by: 'sign-offs', months }
    : { day: byInterval, by: 'interval', months };
}
