import { createHash } from 'node:crypto';
import ical, { ICalAlarmType, ICalCalendarMethod, ICalEventTransparency } from 'ical-generator';
import type { Day } from '../../competence/index.ts';

/** One day of a calendar. */
export type CalendarDay = {
  /** stable: the same thing due has the same id tomorrow */
  readonly id: string;
  readonly day: Day;
  readonly title: string;
  readonly more: string;
};

/** A reminder in the morning, a week before, in seconds before the day begins. */
const ALARM_BEFORE = 7 * 86_400 - 9 * 3600;

/** An id that says nothing to whoever reads the file, and stays the same. */
const uidOf = (org: string, id: string): string =>
  `${createHash('sha256').update(`${org}/${id}`).digest('hex').slice(0, 32)}@signed-to-saw`;

/**
 * A calendar file (RFC 5545) of whole days, each with one reminder. They take up no time, so that nobody
 * looks busy for them.
 */
export function writeCalendar(
  days: readonly CalendarDay[],
  about: {
    readonly name: string;
    readonly org: string;
    readonly at: Date;
    readonly language: string;
  },
): string {
  const calendar = ical({
    name: about.name,
    prodId: { company: 'signed-to-saw', product: 'due', language: about.language.toUpperCase() },
    method: ICalCalendarMethod.PUBLISH,
    ttl: 6 * 3600,
  });
  for (const { id, day, title, more } of days) {
    const event = calendar.createEvent({
      id: uidOf(about.org, id),
      start: new Date(`${day}T00:00:00.000Z`),
      allDay: true,
      timezone: 'UTC',
      stamp: about.at,
      summary: title,
      description: more,
      transparency: ICalEventTransparency.TRANSPARENT,
    });
    event.createAlarm({ type: ICalAlarmType.display, trigger: ALARM_BEFORE, description: title });
  }
  return calendar.toString();
}
