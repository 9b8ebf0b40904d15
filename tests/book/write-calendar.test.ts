import fc from 'fast-check';
import ICAL from 'ical.js';
import { describe, expect, it } from 'vitest';
import { addDays } from '../../src/competence/index.ts';
import { type CalendarDay, writeCalendar } from '../../src/pages/_desk/write-calendar.ts';

const AT = new Date('2026-03-03T09:30:00.000Z');
const about = { name: 'Due at Alder Lane Joinery', org: 'org-1', at: AT, language: 'en' };
const day = (over: Partial<CalendarDay> = {}): CalendarDay => ({
  id: 'ends/1',
  day: '2026-03-29',
  title: 'The authorisation for ripping on AL-01 ends',
  more: 'Open the due list: http://localhost/due',
  ...over,
});
const write = (...days: CalendarDay[]) => writeCalendar(days, about);
const eventsOf = (text: string) =>
  new ICAL.Component(ICAL.parse(text))
    .getAllSubcomponents('vevent')
    .map((one) => new ICAL.Event(one));

describe('the calendar file', () => {
  it('is read back whole by another reader (ical.js)', () => {
    const [event] = eventsOf(write(day()));
    expect(event?.summary).toBe('The authorisation for ripping on AL-01 ends');
    expect(event?.startDate.isDate).toBe(true);
    expect(event?.startDate.toString()).toBe('2026-03-29');
    const [alarm] = event?.component.getAllSubcomponents('valarm') ?? [];
    expect(alarm?.getFirstPropertyValue('action')).toBe('DISPLAY');
    expect(alarm?.getFirstPropertyValue('trigger')?.toString()).toBe('-P6DT15H');
    expect(event?.component.getFirstPropertyValue('transp')).toBe('TRANSPARENT');
  });

  it('ends every line with CR LF and folds it within 75 octets (RFC 5545, 3.1)', () => {
    const text = write(day({ title: 'Ö'.repeat(200), more: 'größer, länger; breiter\\tiefer' }));
    const lines = text.split('\r\n');
    expect(text.replaceAll('\r\n', '')).not.toMatch(/[\r\n]/);
    expect(Math.max(...lines.map((line) => Buffer.byteLength(line)))).toBeLessThanOrEqual(75);
    const [event] = eventsOf(text);
    expect(event?.summary).toBe('Ö'.repeat(200));
    expect(event?.description).toBe('größer, länger; breiter\\tiefer');
  });

  it('keeps the id of a thing due, and gives another thing another id', () => {
    const uid = (text: string) => eventsOf(text).map((event) => event.uid);
    const [today] = uid(write(day()));
    const tomorrow = writeCalendar([day({ day: '2026-04-01' })], {
      ...about,
      at: new Date('2026-03-04T00:00:00.000Z'),
    });
    expect(uid(tomorrow)).toEqual([today]);
    expect(uid(write(day({ id: 'ends/2' })))).not.toEqual([today]);
    expect(uid(writeCalendar([day()], { ...about, org: 'org-2' }))).not.toEqual([today]);
    expect(today).not.toContain('ends');
  });

  it('keeps any words and any day', () => {
    fc.assert(
      fc.property(
        // line ends and control signs have no place in a title
        fc.string({ maxLength: 120, unit: 'grapheme' }).filter((text) => !/\p{Cc}/u.test(text)),
        fc.integer({ min: 0, max: 20_000 }),
        (title, offset) => {
          const when = addDays('2000-01-01', offset);
          const [event] = eventsOf(write(day({ title, day: when })));
          expect(event?.startDate.toString()).toBe(when);
          expect(event?.summary ?? '').toBe(title);
        },
      ),
      { numRuns: 60 },
    );
  });
});
