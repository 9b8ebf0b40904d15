import { describe, expect, test } from 'vitest';
import {
  FIGURE_NAMES,
  mayShow,
  measureDetection,
  wilsonInterval,
} from '../../../src/grading/index.ts';

describe('whether a figure may be shown', () => {
  test.each(FIGURE_NAMES)('%s: quiet below its least sample, shown from it on', (figure) => {
    const { least } = mayShow(figure, 0);
    expect(least).toBeGreaterThanOrEqual(2);
    const below = mayShow(figure, least - 1);
    expect(below).toMatchObject({ show: false, have: least - 1 });
    expect(mayShow(figure, least)).toEqual({ show: true, least, have: least, reason: null });
  });

  test.each(FIGURE_NAMES)('%s: gives its reason in one sentence with both numbers', (figure) => {
    const { reason, least } = mayShow(figure, 1);
    expect(reason).toMatch(new RegExp(`^Needs at least ${least} .*and there are 1: .*\\.$`));
    expect(reason?.slice(0, -1)).not.toMatch(/[.!?]\s/);
  });

  test('rests on the errors it names', () => {
    const width = (n: number) => {
      const { low, high } = wilsonInterval(Math.floor(n / 2), n);
      return high - low;
    };
    const { least } = mayShow('proportion', 0);
    expect(width(least)).toBeLessThan(0.5);
    expect(width(least - 2)).toBeGreaterThan(0.5);
    expect(mayShow('calibration-bin', 0).least).toBe(least);
    expect(1.96 / Math.sqrt(mayShow('discrimination', 0).least - 1)).toBeCloseTo(0.364, 3);
    expect((1.96 * 0.5) / Math.sqrt(mayShow('calibration', 0).least)).toBeLessThan(0.2);
    const n = mayShow('sensitivity', 0).least;
    const error = (trials: number) =>
      measureDetection(
        { hits: 0.8 * trials, signals: trials, falseAlarms: 0.2 * trials, noise: trials },
        'none',
      )?.error;
    // scipy 1.17.1: sqrt(2 H (1 - H) / n) / density(z(H)) is .4518 at 20, .6390 at 10
    expect(error(n)).toBeCloseTo(0.4518, 4);
    expect(error(n / 2)).toBeCloseTo(0.639, 4);
  });

  test('asks two judges for a cut, as a recorded method does, and more for its error', () => {
    expect(mayShow('cut-score', 1).show).toBe(false);
    expect(mayShow('cut-score', 2).show).toBe(true);
    expect(mayShow('cut-score-error', 2).show).toBe(false);
  });

  test('refuses half a sample', () => {
    expect(() => mayShow('kappa', 1.5)).toThrow('the size of the sample must be a whole number');
  });
});
