import { describe, expect, it } from 'vitest';
import { isFineLength, sayFigure, usualDigits } from '../../src/components/lesson/figures.ts';

describe('a figure in a sentence', () => {
  it('is written with its unit', () => {
    expect(sayFigure({ value: 20, unit: 'deg' })).toBe('20°');
    expect(sayFigure({ value: 2.5, unit: 'mg/m3' })).toBe('2.5 mg/m³');
    expect(sayFigure({ value: 12.34, unit: 'N m' })).toBe('12.3 N·m');
    expect(sayFigure({ value: 36, unit: 'count' })).toBe('36');
    expect(sayFigure({ value: 1.5, unit: '1' })).toBe('1.5');
  });

  it('has as many decimals as its size bears', () => {
    expect(sayFigure({ value: 2712.6, unit: 'J' })).toBe('2713 J');
    expect(sayFigure({ value: 62.83, unit: 'm/s' })).toBe('62.8 m/s');
    expect(sayFigure({ value: 0.346, unit: 'kg' })).toBe('0.35 kg');
    expect(usualDigits({ value: 154.93, unit: 'mm' })).toBe(1);
  });

  it('is told in decimals in both units where a shop rule shows nothing of it', () => {
    expect(isFineLength({ value: 0.074, unit: 'mm' })).toBe(true);
    expect(isFineLength({ value: 0.5, unit: 'mm' })).toBe(false);
    expect(isFineLength({ value: 4.25, unit: 'mm' })).toBe(false);
    expect(isFineLength({ value: 0.074, unit: 's' })).toBe(false);
    expect(isFineLength({ value: 0, unit: 'mm' })).toBe(false);
  });
});
