import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import {
  addMonths,
  endOfDay,
  isDay,
  lastDayAllowed,
  sayDay,
  startOfDay,
} from '../../src/competence/index.ts';

describe('days', () => {
  it.each([
    // the 30th of February does not exist; 2028 is a leap year (Gregorian rule, ISO 8601)
    ['2026-01-31', 1, '2026-02-28'],
    ['2028-01-31', 1, '2028-02-29'],
    ['2028-02-29', 12, '2029-02-28'],
    ['2026-03-03', 36, '2029-03-03'],
    ['2026-12-31', 2, '2027-02-28'],
  ])('%s and %i months is %s', (day, months, later) => {
    expect(addMonths(day, months)).toBe(later);
  });

  it.each(['2026-02-30', '2026-13-01', '2026-3-3', '03-03-2026', '', '2026-03-03T00:00:00Z'])(
    'refuses %j as a day',
    (text) => expect(isDay(text)).toBe(false),
  );

  it('reads as a person writes it', () => {
    expect(sayDay('2029-03-03')).toBe('3 March 2029');
    expect(sayDay('2026-05-09T12:00:00.000Z')).toBe('9 May 2026');
  });

  it('ends exactly 24 hours after it starts', () => {
    expect(endOfDay('2026-03-29') - startOfDay('2026-03-29')).toBe(86_400_000);
  });

  it('adding months never moves to another day of the month except to the last one', () => {
    const day = fc
      .date({ noInvalidDate: true, min: new Date('2000-01-01'), max: new Date('2060-12-31') })
      .map((date) => date.toISOString().slice(0, 10));
    fc.assert(
      fc.property(day, fc.integer({ min: 1, max: 120 }), (from, months) => {
        const to = addMonths(from, months);
        expect(isDay(to)).toBe(true);
        const moved = to.slice(8) !== from.slice(8);
        // moved only because the next day would already be another month
        if (moved) expect(new Date(endOfDay(to)).getUTCDate()).toBe(1);
      }),
    );
  });

  it('allows three years by default', () => {
    expect(lastDayAllowed('2026-03-03')).toBe('2029-03-03');
  });

  it('never allows more than five years', () => {
    expect(lastDayAllowed('2026-03-03', { months: 600, source: 'a slip' })).toBe('2031-03-03');
  });
});
