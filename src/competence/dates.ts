/**
 * Calendar days as `YYYY-MM-DD`, and instants as ISO text in UTC. A sign-off runs from the start of
 * its first day to the end of its last day, both in UTC, so that every reader works out the same answer.
 */
export type Day = string;
export type Instant = string;

const MONTHS = [
  'January',
  'February',
  'March',
  'April',
  'May',
  'June',
  'July',
  'August',
  'September',
  'October',
  'November',
  'December',
] as const;

const DAY = /^(\d{4})-(\d{2})-(\d{2})$/;

type Parts = { readonly year: number; readonly month: number; readonly day: number };

/** Days in a month counted from 1, Gregorian. */
const daysIn = (year: number, month: number): number =>
  new Date(Date.UTC(year, month, 0)).getUTCDate();

function partsOf(text: string): Parts | null {
  const found = DAY.exec(text);
  if (found === null) return null;
  const [year, month, day] = [Number(found[1]), Number(found[2]), Number(found[3])];
  const real = month >= 1 && month <= 12 && day >= 1 && day <= daysIn(year, month);
  return real ? { year, month, day } : null;
}

/** Whether the text is a day that exists, written `2026-03-03`. */
export const isDay = (text: string): boolean => partsOf(text) !== null;

const pad = (value: number, size = 2): string => String(value).padStart(size, '0');

/** The day, in UTC, an instant falls on. */
export const dayOf = (at: Instant): Day => new Date(at).toISOString().slice(0, 10);

/** The first instant of a day, as milliseconds since 1970. */
export const startOfDay = (day: Day): number => Date.parse(`${day}T00:00:00.000Z`);

/** The first instant after a day has ended, as milliseconds since 1970. */
export const endOfDay = (day: Day): number => startOfDay(day) + 86_400_000;

/** The same day of the month, `months` later; the last day of a shorter month when there is none. */
export function addMonths(day: Day, months: number): Day {
  const parts = partsOf(day);
  if (parts === null) throw new RangeError(`${day} is not a day`);
  const count = parts.year * 12 + (parts.month - 1) + months;
  const year = Math.floor(count / 12);
  const month = count - year * 12 + 1;
  return `${pad(year, 4)}-${pad(month)}-${pad(Math.min(parts.day, daysIn(year, month)))}`;
}

/** The day `days` later, or earlier when negative. */
export const addDays = (day: Day, days: number): Day =>
  dayOf(new Date(startOfDay(day) + days * 86_400_000).toISOString());

/** A day or an instant as a person reads it: `3 March 2029`. Text that is no day comes back as it is. */
export function sayDay(when: Day | Instant): string {
  const parts = partsOf(when.slice(0, 10));
  return parts === null ? when : `${parts.day} ${MONTHS[parts.month - 1]} ${parts.year}`;
}

/** The earliest of some days, or null when there is none. */
export const earliestOf = (days: readonly Day[]): Day | null => [...days].sort()[0] ?? null;

/** The earlier of two days. */
export const earlierOf = (a: Day, b: Day): Day => earliestOf([a, b]) ?? a;
