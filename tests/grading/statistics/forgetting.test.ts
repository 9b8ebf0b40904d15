import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { FORGETTING_DECAY, intervalFor, retentionAfter } from '../../../src/grading/index.ts';

const positive = fc.double({ min: 0.01, max: 3650, noNaN: true });
const decays = fc.double({ min: 0.1, max: 2, noNaN: true });

/** Twin: the time by halving the curve. */
function slowInterval(wanted: number, stability: number, decay: number): number {
  let [low, high] = [0, 1];
  while (retentionAfter(high, stability, decay) > wanted) high *= 2;
  for (let i = 0; i < 200; i += 1) {
    const middle = (low + high) / 2;
    if (retentionAfter(middle, stability, decay) > wanted) low = middle;
    else high = middle;
  }
  return low;
}

describe('the forgetting curve', () => {
  test('is .946059 after 15 and .825029 after 60 for stability 30 and decay .5', () => {
    // from R = (1 + f t/S)^-d with f = .9^-2 - 1 = 19/81: (1 + 19/162)^-.5, (1 + 38/81)^-.5
    expect(FORGETTING_DECAY).toBe(0.5);
    expect(retentionAfter(15, 30)).toBeCloseTo(0.946059, 6);
    expect(retentionAfter(60, 30)).toBeCloseTo(0.825029, 6);
    expect(retentionAfter(15, 30)).toBeCloseTo(Math.sqrt(162 / 181), 12);
    expect(retentionAfter(60, 30)).toBeCloseTo(Math.sqrt(81 / 119), 12);
  });

  test('is .9 after one stability, whatever the decay, and 1 at once', () => {
    fc.assert(
      fc.property(positive, decays, (stability, decay) => {
        expect(retentionAfter(stability, stability, decay)).toBeCloseTo(0.9, 10);
        expect(retentionAfter(0, stability, decay)).toBe(1);
      }),
    );
  });

  test('falls with time and rises with stability', () => {
    fc.assert(
      fc.property(positive, positive, decays, (elapsed, stability, decay) => {
        const here = retentionAfter(elapsed, stability, decay);
        expect(retentionAfter(elapsed * 1.1, stability, decay)).toBeLessThan(here);
        expect(retentionAfter(elapsed, stability * 1.1, decay)).toBeGreaterThan(here);
      }),
    );
  });

  test('forgets slower and slower: a power, not a half-life', () => {
    const first = retentionAfter(100, 10) / retentionAfter(0, 10);
    const later = retentionAfter(200, 10) / retentionAfter(100, 10);
    expect(later).toBeGreaterThan(first);
  });
});

describe('the next interval', () => {
  test('is the stability for .9 and nothing for 1', () => {
    expect(intervalFor(0.9, 30)).toBeCloseTo(30, 10);
    expect(intervalFor(1, 30)).toBe(0);
    // .8: 30 (1/.64 - 1) / (19/81) = 30 * .5625 * 81/19
    expect(intervalFor(0.8, 30)).toBeCloseTo((30 * 0.5625 * 81) / 19, 9);
  });

  test('is the time at which the curve reaches what is wanted', () => {
    const wanted = fc.double({ min: 0.3, max: 0.99, noNaN: true });
    fc.assert(
      fc.property(wanted, positive, decays, (goal, stability, decay) => {
        const time = intervalFor(goal, stability, decay);
        expect(retentionAfter(time, stability, decay)).toBeCloseTo(goal, 9);
        expect(slowInterval(goal, stability, decay) / time).toBeCloseTo(1, 9);
      }),
    );
  });

  test('shortens as more is wanted', () => {
    const times = [0.7, 0.8, 0.9, 0.95, 0.99].map((wanted) => intervalFor(wanted, 10));
    expect(times).toEqual(times.toSorted((a, b) => b - a));
    expect(new Set(times).size).toBe(5);
  });

  test('names what it refuses', () => {
    expect(() => intervalFor(0, 30)).toThrow('wanted must be a number from 0.01 to 1, not 0.');
    expect(() => intervalFor(0.9, 0)).toThrow('stability must be');
    expect(() => retentionAfter(-1, 30)).toThrow('elapsed must be');
    expect(() => retentionAfter(1, 30, 0)).toThrow('decay must be a number from 0.05 to 5');
  });
});
