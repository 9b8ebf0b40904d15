import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { type Met, practiseNext } from '../../src/assessment/index.ts';
import { retentionAfter } from '../../src/grading/index.ts';

const NOW = '2026-11-25T12:00:00.000Z';
const daysAgo = (days: number) => new Date(Date.parse(NOW) - days * 86_400_000).toISOString();
const met = (id: string, right: boolean, days: number): Met => ({ id, right, at: daysAgo(days) });
const ids = (list: readonly Met[], now = NOW) => practiseNext(list, now, 10).map(({ id }) => id);

/*
 * The law of forgetting the order rests on: a power law, R = (1 + f t/S)^-d with f = .9^(-1/d) - 1, so
 * that nine in ten are kept after one stability S. Worked with d .5 and S 30 days: .946059 after 15 days
 * and .825029 after 60 (it follows from the definition; Wickelgren 1974, Wixted and Carpenter 2007 for
 * the shape: quick at first and then slow).
 */
describe('forgetting', () => {
  it('is the power law worked by hand', () => {
    expect(retentionAfter(15, 30)).toBeCloseTo(0.946059, 6);
    expect(retentionAfter(60, 30)).toBeCloseTo(0.825029, 6);
    expect(retentionAfter(30, 30)).toBeCloseTo(0.9, 12);
  });
});

describe('what to practise next', () => {
  it('is nothing for somebody who has missed nothing, or done nothing', () => {
    expect(ids([])).toEqual([]);
    expect(ids([met('a', true, 1), met('b', true, 400)])).toEqual([]);
  });

  it('offers what was missed the last time at once', () => {
    expect(ids([met('a', false, 0)])).toEqual(['a']);
    expect(practiseNext([met('a', true, 5), met('a', false, 3)], NOW)).toMatchObject([
      { id: 'a', met: 2, missed: 1, row: 0, days: 3 },
    ]);
  });

  it('puts what is missed more often before what is missed less', () => {
    const list = [
      met('seldom', true, 9),
      met('seldom', true, 8),
      met('seldom', false, 7),
      met('often', false, 9),
      met('often', false, 8),
      met('often', false, 7),
    ];
    expect(ids(list)).toEqual(['often', 'seldom']);
  });

  it('leaves in peace what has just been got right again, and comes back to it with the days', () => {
    const right = [met('a', false, 40), met('a', true, 30), met('a', true, 20), met('a', true, 10)];
    const offered = (days: number) =>
      ids(
        [...right, met('a', true, 5), met('a', true, 2), met('a', true, 0)],
        new Date(Date.parse(NOW) + days * 86_400_000).toISOString(),
      );
    expect(offered(0)).toEqual([]);
    expect(offered(10)).toEqual([]);
    expect(offered(1000)).toEqual(['a']);
  });

  it('waits longer the more often it was right with days between', () => {
    const once = [met('a', false, 20), met('a', true, 0)];
    const spaced = [met('a', false, 20), met('a', true, 12), met('a', true, 6), met('a', true, 0)];
    const chance = (list: readonly Met[], days: number) =>
      practiseNext(list, new Date(Date.parse(NOW) + days * 86_400_000).toISOString())[0]?.chance ??
      1;
    for (const days of [30, 90, 300])
      expect(chance(spaced, days)).toBeGreaterThan(chance(once, days));
  });

  it('takes ten right times in one hour for one: cramming is not keeping', () => {
    const cram = Array.from({ length: 10 }, (_, i) => met('a', true, 20 + i / 240));
    const spaced = Array.from({ length: 10 }, (_, i) => met('b', true, 20 + 2 * i));
    const list = [met('a', false, 45), met('b', false, 45), ...cram, ...spaced];
    expect(ids(list)).toEqual(['a']);
  });

  it('does not look at what is yet to come', () => {
    const list = [met('a', false, 2), met('b', false, -3)];
    expect(ids(list)).toEqual(['a']);
  });

  it('is the same in whatever order the attempts are given, and never more than asked', () => {
    const some = fc.array(
      fc.record({
        id: fc.constantFrom('a', 'b', 'c', 'd', 'e'),
        right: fc.boolean(),
        days: fc.integer({ min: 0, max: 60 }),
      }),
      { maxLength: 30 },
    );
    fc.assert(
      fc.property(some, (list) => {
        // one time for each moment and thing, so that the order is told by the moments alone
        const one = new Map(list.map((each) => [`${each.id} ${each.days}`, each]));
        const times = [...one.values()].map(({ id, right, days }) => met(id, right, days));
        const next = practiseNext(times, NOW);
        expect(practiseNext(times.toReversed(), NOW)).toEqual(next);
        expect(next.length).toBeLessThanOrEqual(3);
        for (const { chance, missed } of next) {
          expect(chance).toBeGreaterThanOrEqual(0);
          expect(chance).toBeLessThan(1);
          expect(missed).toBeGreaterThan(0);
        }
        expect(next.map(({ chance }) => chance)).toEqual(
          next.map(({ chance }) => chance).toSorted((a, b) => a - b),
        );
      }),
    );
  });

  it('says a chance that follows from the law: right once a day after a miss, then 60 days later', () => {
    // right 1 of 2, so .5 known; one time in a row, stability 2 days; (1 + (.9^-2 - 1) 60/2)^-.5 = .3530...
    const kept = (1 + (0.9 ** -2 - 1) * 30) ** -0.5;
    const [next] = practiseNext([met('a', false, 61), met('a', true, 60)], NOW);
    expect(next?.chance).toBeCloseTo(0.5 * kept, 9);
  });
});
