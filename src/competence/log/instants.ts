import type { Instant } from '../dates.ts';
import type { LogEvent } from './log-event.ts';

export const timeOf = (instant: Instant): number => Date.parse(instant);

/** When the site had it, as milliseconds since 1970. */
export const receivedAt = (event: Pick<LogEvent, 'received'>): number => timeOf(event.received);

/**
 * The instant an event counts from, as milliseconds since 1970: the earlier of the two clocks. A device
 * clock that runs ahead delays nothing, and work done without a network counts from when it was done.
 */
export const countsFrom = (event: Pick<LogEvent, 'at' | 'received'>): number =>
  Math.min(timeOf(event.at), timeOf(event.received));
