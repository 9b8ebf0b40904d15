import { type Day, endOfDay, type Instant, isDay } from '../dates.ts';

/** An instant somebody asked about. */
export type AskedInstant = {
  readonly instant: Instant;
  /** the day asked for, whose end is meant; null where a time was named */
  readonly day: Day | null;
};

const TIME = /^(\d{4}-\d{2}-\d{2})T([01]\d|2[0-3]):([0-5]\d)(?::([0-5]\d)(?:\.(\d{3}))?)?Z?$/;

/**
 * Reads `2026-03-03` as the end of that day in UTC, and `2026-03-03T14:30` as that minute in UTC, seconds
 * and a `Z` allowed. Null for anything else, and for a day that does not exist.
 */
export function readInstant(text: string): AskedInstant | null {
  if (isDay(text)) {
    return { instant: new Date(endOfDay(text) - 1).toISOString(), day: text };
  }
  const [, day, hour, minute, second = '00', part = '000'] = TIME.exec(text) ?? [];
  if (day === undefined || !isDay(day)) return null;
  return { instant: `${day}T${hour}:${minute}:${second}.${part}Z`, day: null };
}
