import { isDay } from '../../competence/index.ts';

const TIME = /^([01]\d|2[0-3]):([0-5]\d)$/;
/** Widest difference between any clock and UTC, minutes. */
const WIDEST_OFFSET = 14 * 60;

/** A day and a time typed into a form, and how far behind UTC that clock is. */
export type TypedMoment = {
  /** `2026-03-03` */
  readonly day: string;
  /** `14:05` */
  readonly time: string;
  /** minutes to add for UTC, as a browser tells it; empty when no script ran, and the time is UTC */
  readonly offset: string;
};

/** The instant meant, in UTC; null when day, time or offset is none. */
export function momentOf({ day, time, offset }: TypedMoment): string | null {
  const minutes = offset === '' ? 0 : Number(offset);
  if (!isDay(day) || !TIME.test(time)) return null;
  if (!Number.isInteger(minutes) || Math.abs(minutes) > WIDEST_OFFSET) return null;
  return new Date(Date.parse(`${day}T${time}:00.000Z`) + minutes * 60_000).toISOString();
}
