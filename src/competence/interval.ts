import { addMonths, type Day } from './dates.ts';

/** How long a sign-off may stand before the person is watched again. An organisation may choose its own. */
export type Interval = {
  /** calendar months, 1 to 60 */
  readonly months: number;
  readonly source: string;
};

/**
 * Great Britain, HSE training page for woodworking machines: refresh regular users about every five
 * years (a newer page says three to five), stand-ins at most three, and after a break, a change, an
 * incident or a near miss. Guidance, not statute. We take the shortest of these for everyone.
 */
export const DEFAULT_INTERVAL: Interval = {
  months: 36,
  source:
    'HSE woodworking training guidance (GB): refresh every 3 to 5 years, stand-ins at most 3. Guidance, not law; the trainer may set a shorter time.',
};

/** Nobody is signed off for longer than this, whatever the organisation chose, months. */
export const LONGEST_INTERVAL = 60;

/** The last day a practical seen on `observed` may stand. */
export const lastDayAllowed = (observed: Day, interval: Interval = DEFAULT_INTERVAL): Day =>
  addMonths(observed, Math.min(interval.months, LONGEST_INTERVAL));
