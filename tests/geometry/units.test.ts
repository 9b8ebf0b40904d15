import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import {
  above,
  atLeast,
  atMost,
  below,
  degreesToRadians,
  formatInchFraction,
  formatLength,
  inchesToMm,
  mmToInches,
  mmToMetres,
  radiansToDegrees,
} from '../../src/geometry/index.ts';

describe('units', () => {
  it('takes the inch as 25.4 mm exactly (international yard and pound agreement, 1959)', () => {
    expect(inchesToMm(1)).toBe(25.4);
    expect(inchesToMm(0.25)).toBe(6.35);
    expect(inchesToMm(0.5)).toBe(12.7);
    expect(mmToInches(63.5)).toBe(2.5);
  });

  it('turns lengths and angles there and back within rounding', () => {
    fc.assert(
      fc.property(fc.double({ min: -1e4, max: 1e4, noNaN: true }), (value) => {
        expect(inchesToMm(mmToInches(value))).toBeCloseTo(value, 8);
        expect(radiansToDegrees(degreesToRadians(value))).toBeCloseTo(value, 8);
        expect(mmToMetres(value) * 1000).toBeCloseTo(value, 8);
      }),
    );
  });

  it.each([
    [0, '0'],
    [25.4, '1'],
    [12.7, '1/2'],
    [6.35, '1/4'],
    [34.925, '1 3/8'],
    [8, '5/16'],
    [7.5, '19/64'],
    [-8, '-5/16'],
    [-0.05, '0'],
    [25.3, '1'],
  ])('shows %f mm as %s in on a rule to 1/64', (length, shown) => {
    expect(formatInchFraction(length)).toBe(shown);
  });

  it('never strays more than half a sixty-fourth', () => {
    fc.assert(
      fc.property(fc.double({ min: 0, max: 3000, noNaN: true }), (length) => {
        const [first = '0', second] = formatInchFraction(length).split(' ');
        const value = [first, second ?? '0'].reduce((sum, text) => {
          const [top, bottom] = text.split('/').map(Number);
          return sum + (top ?? 0) / (bottom ?? 1);
        }, 0);
        expect(Math.abs(inchesToMm(value) - length)).toBeLessThanOrEqual(25.4 / 128 + 1e-9);
      }),
    );
  });

  it('names the unit, drops a trailing zero and never shows minus nought', () => {
    expect(formatLength(8, 'mm')).toBe('8 mm');
    expect(formatLength(7.46, 'mm')).toBe('7.5 mm');
    expect(formatLength(-0.01, 'mm')).toBe('0 mm');
    expect(formatLength(7.46, 'mm', 2)).toBe('7.46 mm');
    expect(formatLength(8, 'inch')).toBe('5/16 in');
  });
});

describe('comparison at a limit', () => {
  it('holds at equality for "not more than" and "at least", not for "less" and "more"', () => {
    // a binary slip of 1.1 * 3 against 3.3 must not decide
    expect(1.1 * 3).not.toBe(3.3);
    expect(atLeast(3.3, 1.1 * 3)).toBe(true);
    expect(atMost(1.1 * 3, 3.3)).toBe(true);
    expect(below(3.3, 1.1 * 3)).toBe(false);
    expect(above(1.1 * 3, 3.3)).toBe(false);
  });

  it('decides a micrometre either side', () => {
    expect(atMost(8.001, 8)).toBe(false);
    expect(atMost(7.999, 8)).toBe(true);
    expect(atLeast(2.999, 3)).toBe(false);
    expect(below(7.999, 8)).toBe(true);
    expect(above(8.001, 8)).toBe(true);
  });
});
