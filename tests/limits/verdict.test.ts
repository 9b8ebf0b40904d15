import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { measureBench } from '../../src/bench/index.ts';
import {
  closenessOf,
  type Ends,
  failedEnd,
  judge,
  judgeReadings,
  marginTo,
  meetsEnds,
  SAY_SEEN,
  sayLimit,
  saySource,
  sayValue,
} from '../../src/limits/index.ts';
import { makeBench } from '../helpers/bench.ts';
import { knifeAround } from '../helpers/oracle-case.ts';
import { judgeOne, limitSet } from '../helpers/rules.ts';

const ends = (
  min: number | null,
  max: number | null,
  inclusive = { min: true, max: true },
): Ends => ({
  min,
  max,
  minInclusive: inclusive.min,
  maxInclusive: inclusive.max,
});

describe('closeness', () => {
  test.each([
    ['middle', 5.5, 1],
    ['middle', 3, 0],
    ['middle', 8, 0],
    ['middle', 4, 0.4],
    ['middle', 7, 0.4],
    ['low', 3, 1],
    ['low', 8, 0],
    ['low', 4, 0.8],
    ['high', 8, 1],
    ['high', 3, 0],
    ['high', 4, 0.2],
  ] as const)('aim %s on 3 to 8: %d gives %d', (aim, value, expected) => {
    expect(closenessOf(value, { min: 3, max: 8 }, aim)).toBeCloseTo(expected, 12);
  });

  test('aim low counts from 0 where no least is published', () => {
    expect(closenessOf(2, { min: null, max: 8 }, 'low')).toBeCloseTo(0.75, 12);
    expect(closenessOf(-50, { min: null, max: 8 }, 'low')).toBe(1);
  });

  test('without an aim every place inside is as good', () => {
    expect(closenessOf(3, { min: 3, max: 8 }, null)).toBe(1);
    expect(closenessOf(450, { min: 450, max: null }, null)).toBe(1);
  });

  test('a limit of one single value is met wholly', () => {
    expect(closenessOf(0, { min: null, max: 0 }, 'low')).toBe(1);
  });

  test('never leaves 0 to 1', () => {
    const aim = fc.constantFrom('low', 'middle', 'high', null);
    const number = fc.double({ min: -1e4, max: 1e4, noNaN: true });
    fc.assert(
      fc.property(number, number, number, aim, (value, a, b, chosen) => {
        const closeness = closenessOf(value, { min: Math.min(a, b), max: Math.max(a, b) }, chosen);
        expect(closeness).toBeGreaterThanOrEqual(0);
        expect(closeness).toBeLessThanOrEqual(1);
      }),
      { seed: 20 },
    );
  });
});

describe('ends', () => {
  test('equality is meant to one millionth', () => {
    expect(meetsEnds(8 + 9e-7, ends(null, 8), 0)).toBe(true);
    expect(meetsEnds(8 + 2e-6, ends(null, 8), 0)).toBe(false);
    expect(meetsEnds(0.3 - 9e-7, ends(0.1 + 0.2, null), 0)).toBe(true);
    expect(meetsEnds(1e-7, ends(0, null, { min: false, max: true }), 0)).toBe(false);
    expect(meetsEnds(2e-6, ends(0, null, { min: false, max: true }), 0)).toBe(true);
  });

  test('a value that is not a number meets no limit', () => {
    expect(failedEnd(Number.NaN, ends(3, null), 0)).toBe('min');
    expect(failedEnd(Number.NaN, ends(null, 8), 0)).toBe('max');
  });

  test('margin is the signed distance to the nearest end, positive inside', () => {
    expect(marginTo(4, ends(3, 8))).toBe(1);
    expect(marginTo(7.5, ends(3, 8))).toBe(0.5);
    expect(marginTo(1, ends(3, 8))).toBe(-2);
    expect(marginTo(10, ends(3, 8))).toBe(-2);
    expect(marginTo(10, ends(null, 8))).toBe(-2);
    expect(marginTo(10, ends(8, null))).toBe(2);
    expect(marginTo(3, ends(null, 8))).toBe(5);
    expect(marginTo(9, ends(3, null))).toBe(6);
    expect(marginTo(9, ends(null, null))).toBeNull();
  });

  test('more uncertainty never settles what less left open', () => {
    const number = fc.double({ min: -20, max: 20, noNaN: true });
    const spread = fc.double({ min: 0, max: 10, noNaN: true });
    fc.assert(
      fc.property(number, spread, spread, (value, a, b) => {
        const [small, large] = [Math.min(a, b), Math.max(a, b)];
        const band = ends(3, 8);
        if (meetsEnds(value, band, large)) expect(meetsEnds(value, band, small)).toBe(true);
        if (failedEnd(value, band, large) !== null) {
          expect(failedEnd(value, band, small)).not.toBeNull();
        }
        expect(meetsEnds(value, band, small) && failedEnd(value, band, small) !== null).toBe(false);
      }),
      { seed: 21 },
    );
  });
});

describe('one limit against a bench', () => {
  test('within: says by how much and how near the aim', () => {
    expect(judgeOne('eu.knife.gapMax', knifeAround(5))).toMatchObject({
      verdict: 'within',
      holds: true,
      failed: null,
      unit: 'mm',
      min: null,
      max: 8,
      critical: true,
      grade: 'must',
    });
    expect(judgeOne('eu.knife.gapMax', knifeAround(5)).margin).toBeCloseTo(3, 9);
    expect(judgeOne('eu.knife.gapMax', knifeAround(5)).closeness).toBeCloseTo(0.8, 9);
  });

  test('outside: names the end, and closeness is 0', () => {
    const result = judgeOne('eu.knife.gapMin', knifeAround(2));
    expect(result).toMatchObject({ verdict: 'outside', holds: false, failed: 'min', closeness: 0 });
    expect(result.margin).toBeCloseTo(-1, 9);
    expect(judgeOne('gb.knife.gap', knifeAround(9)).failed).toBe('max');
    expect(judgeOne('gb.under', { underGuard: 'none' })).toMatchObject({
      failed: 'word',
      margin: null,
      closeness: 0,
      value: 'none',
    });
  });

  test('too close: neither end is shown to fail', () => {
    expect(judgeOne('gb.knife.gap', knifeAround(7.9), 0.5)).toMatchObject({
      verdict: 'too-close',
      holds: true,
      failed: null,
    });
    expect(judgeOne('gb.knife.gap', knifeAround(8.2), 0.5)).toMatchObject({
      verdict: 'too-close',
      holds: false,
      closeness: 0,
    });
  });

  test('not applicable: nothing is said about the limit', () => {
    expect(judgeOne('gb.knife.gap', { knife: null })).toMatchObject({
      verdict: 'not-applicable',
      value: null,
      holds: null,
      margin: null,
      closeness: null,
    });
  });

  test('advice: shows the figure and the margin, decides nothing', () => {
    expect(judgeOne('gb.guard.clearance', { guard: { height: 65 } })).toMatchObject({
      verdict: 'advice',
      holds: false,
      failed: null,
      margin: -3,
    });
  });

  test('a value at the limit shows no negative margin', () => {
    const result = judgeOne('eu.knife.thicker', {
      blade: { plate: 2.1, kerf: 3 },
      knife: { thickness: 2.3 },
    });
    expect(2.3 - 2.1).toBeLessThan(0.2);
    expect(result).toMatchObject({ verdict: 'within', margin: 0 });
  });

  test('uncertainty can be given for each measure', () => {
    const near = knifeAround(7.9);
    expect(judgeOne('gb.knife.gap', near, { 'knife.gapAtTable': 0.5 }).verdict).toBe('too-close');
    expect(judgeOne('gb.knife.gap', near, { 'knife.gapMax': 0.5 }).verdict).toBe('within');
  });

  test('a set is judged in its own order, one result for each limit', () => {
    const set = limitSet('gb');
    const bench = makeBench();
    const results = judge(bench, measureBench(bench), set);
    expect(results.map(({ limit }) => limit)).toEqual(set.limits.map(({ id }) => id));
  });
});

describe('readings from a real machine', () => {
  test('are held against every limit on what was read, with the uncertainty of the instrument', () => {
    const readings = [
      { measure: 'knife.gapAtTable', value: 7.8, uncertainty: 0.5 },
      { measure: 'arbor.runDown', value: 11 },
    ] as const;
    const results = judgeReadings(makeBench(), readings, limitSet('gb'));
    expect(results.map(({ limit, value, verdict }) => [limit, value, verdict])).toEqual([
      ['gb.knife.gap', 7.8, 'too-close'],
      ['gb.arbor.stop', 11, 'outside'],
    ]);
  });

  test('take from the bench on record which limits are in force', () => {
    const readings = [{ measure: 'knife.gapAtTable', value: 20 }] as const;
    const crosscut = makeBench({ job: { cut: 'crosscut' } });
    expect(judgeReadings(crosscut, readings, limitSet('gb'))[0]?.verdict).toBe('not-applicable');
  });
});

describe('words for people', () => {
  test('say a limit with its ends and unit', () => {
    const say = (id: string, shownIn: 'mm' | 'inch' = 'mm') => {
      const limit = limitSet(id.split('.')[0] ?? '').limits.find((one) => one.id === id);
      return limit === undefined ? '' : sayLimit(limit, judgeOne(id), shownIn);
    };
    expect(say('eu.knife.gapMin')).toBe('at least 3 mm');
    expect(say('gb.knife.drop')).toBe('at least 0 mm and at most 25 mm');
    expect(say('gb.knife.thicker')).toBe('more than 0 mm');
    expect(say('us-ca.knife.gap', 'inch')).toBe('at most 1/2 in');
    expect(say('gb.guard.gullets')).toBe('yes');
    expect(say('gb.under')).toBe('enclosed or extraction-hood');
    expect(say('gb.knife.fitted')).toBe('fitted');
    expect(say('gb.arbor.stop')).toBe('at most 10 s');
  });

  test('say a value with its unit', () => {
    expect(sayValue(7.456, 'mm', 'mm')).toBe('7.46 mm');
    expect(sayValue(0.6, '1', 'mm')).toBe('0.6');
    expect(sayValue(false, 'yes/no', 'mm')).toBe('no');
    expect(sayValue(null, 'mm', 'mm')).toBe('none');
  });

  test('say where a figure comes from and how it was seen', () => {
    expect(
      saySource({ document: 'Regulations', clause: 'reg 16', year: 1974, seen: 'memory' }),
    ).toBe('Regulations, reg 16, 1974 (from memory, check before use)');
    expect(saySource({ document: 'Trade', seen: 'practice' })).toBe(SAY_SEEN.practice);
  });
});
