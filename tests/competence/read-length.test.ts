import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { readLength } from '../../src/competence/sheet/index.ts';
import { formatInchFraction } from '../../src/geometry/index.ts';

const mm = (text: string, unit: 'mm' | 'inch' = 'mm') => {
  const read = readLength(text, unit);
  return read.ok ? read.length.mm : read.message;
};

describe('a length as typed', () => {
  it.each([
    ['7.5', 7.5],
    ['7,5', 7.5],
    [' 7.5 mm ', 7.5],
    ['-2', -2],
    ['−2,5', -2.5],
    ['.5', 0.5],
    ['8.', 8],
    ['1200', 1200],
    ['0.125', 0.125],
  ])('%j in mm is %d', (text, value) => expect(mm(text)).toBe(value));

  // 1 inch is 25.4 mm exactly (international yard and pound agreement, 1959)
  it.each([
    ['5/16', 7.9375],
    ['1 3/8', 34.925],
    ['1-3/8', 34.925],
    ['3/8"', 9.525],
    ['1/2 in', 12.7],
    ['0.25', 6.35],
    ['0,25', 6.35],
    ['½', 12.7],
    ['2½', 63.5],
    ['-1/8', -3.175],
    ['5 / 16', 7.9375],
    ['18 inches', 457.2],
  ])('%j in inches is %d mm', (text, value) => expect(mm(text, 'inch')).toBeCloseTo(value, 9));

  it('takes the unit typed with the figure over the one chosen beside it', () => {
    expect(readLength('5/16 in', 'mm')).toMatchObject({ ok: true, length: { unit: 'inch' } });
    expect(mm('8 mm', 'inch')).toBe(8);
  });

  it.each([
    ['', 'mm', 'must be filled in'],
    ['5/16', 'mm', 'is a fraction'],
    ['1/3', 'inch', 'fraction of 2, 4, 8'],
    ['1 9/8', 'inch', 'less than one'],
    ['1.5/8', 'inch', 'one number'],
    ['1,200', 'mm', 'could be 1200 or 1.200'],
    ['1.200,5', 'mm', 'one number'],
    ['about 8', 'mm', 'one number'],
    ['8-10', 'mm', 'one number'],
    ['1e3', 'mm', 'one number'],
    ['NaN', 'mm', 'one number'],
  ] as const)('refuses %j in %s: it %s', (text, unit, message) => {
    expect(mm(text, unit)).toContain(message);
  });

  it('reads back every fraction a shop rule shows', () => {
    fc.assert(
      fc.property(fc.integer({ min: -6400, max: 6400 }), (parts) => {
        const length = (parts / 64) * 25.4;
        // the rule prints a negative mixed number as "-1 3/8"
        expect(mm(formatInchFraction(length), 'inch')).toBeCloseTo(length, 9);
      }),
    );
  });

  it('never throws', () => {
    fc.assert(
      fc.property(fc.string(), fc.constantFrom('mm' as const, 'inch' as const), (text, unit) => {
        const read = readLength(text, unit);
        if (read.ok) expect(Number.isFinite(read.length.mm)).toBe(true);
      }),
    );
  });
});
