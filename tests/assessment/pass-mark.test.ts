import { describe, expect, it } from 'vitest';
import { ratesAll, ratingLines, settleMark } from '../../src/assessment/index.ts';
import { loadBlueprints } from '../../src/store/content-files.ts';

const blueprints = [...loadBlueprints('content').values()];
const plain = (weights: readonly number[]) =>
  ratingLines({
    tasks: [
      { kind: 'plan', weight: weights[0] ?? 1 },
      { kind: 'limit', weight: weights[1] ?? 1, count: 4 },
      { kind: 'react', weight: weights[2] ?? 1, from: ['a', 'b'], count: 2 },
      { kind: 'set', weight: weights[3] ?? 1, settings: ['knife.gapMax'] },
    ],
  });
const rate = (values: readonly number[]) => ({
  plan: values[0] ?? 0,
  limit: values[1] ?? 0,
  react: values[2] ?? 0,
  set: values[3] ?? 0,
});

describe('what there is to rate', () => {
  it.each(blueprints.map((one) => [one.id, one] as const))(
    'adds up to 100 points in %s',
    (_id, blueprint) => {
      const lines = ratingLines(blueprint);
      expect(lines.reduce((sum, { gain }) => sum + gain, 0)).toBeCloseTo(100, 9);
      expect(new Set(lines.map(({ id }) => id)).size).toBe(lines.length);
    },
  );

  it('gives faults their share by severity: a danger is worth two warnings and four cautions', () => {
    const lines = ratingLines({
      tasks: [
        {
          kind: 'find',
          weight: 1,
          faults: { danger: 1, warning: 1, caution: 2 },
          lookAlikes: 2,
          near: 0,
        },
      ],
    });
    // 4 + 2 + 2 x 1 = 8 in all; two false alarms at the cost of a warning each take half of it
    expect(lines.map(({ id, gain, loss }) => [id, gain, loss])).toEqual([
      ['find-danger', 50, 0],
      ['find-warning', 25, 0],
      ['find-caution', 25, 0],
      ['find-in-order', 0, 50],
    ]);
  });
});

describe('the mark', () => {
  /*
   * Angoff's cut is the mean over judges of the sum of their ratings; each judge of this example rates
   * parts of equal weight. Worked by hand: sums of the first four columns 2.6 2.75 2.5 2.55 of 4, so
   * 65, 68.75, 62.5, 63.75 points; mean 65; deviation 2.700309 (squares 0 + 14.0625 + 6.25 + 1.5625,
   * over 3, root), error half of it for four judges.
   */
  const judges = [
    [0.6, 0.7, 0.5, 0.8],
    [0.7, 0.7, 0.6, 0.75],
    [0.5, 0.65, 0.55, 0.8],
    [0.65, 0.75, 0.45, 0.7],
  ].map(rate);

  it('is the mean of what the trainers expect of one just good enough, worked by hand', () => {
    const settled = settleMark(plain([1, 1, 1, 1]), judges);
    expect(settled?.sums.map((sum) => Math.round(sum * 1e6) / 1e6)).toEqual([
      65, 68.75, 62.5, 63.75,
    ]);
    expect(settled?.cut).toBeCloseTo(65, 9);
    expect(settled?.mark).toBe(65);
    expect(settled?.deviation).toBeCloseTo(2.700309, 6);
    expect(settled?.error).toBeCloseTo(2.700309 / 2, 6);
  });

  it('rounds up: a person at the cut of a point and a half is not failed by the half', () => {
    const lines = plain([1, 1, 1, 1]);
    const settled = settleMark(lines, [rate([0.5, 0.5, 0.5, 0.52]), rate([0.5, 0.5, 0.5, 0.5])]);
    expect(settled?.cut).toBeCloseTo(50.25, 9);
    expect(settled?.mark).toBe(51);
  });

  it('weighs the parts as the grade does', () => {
    const settled = settleMark(plain([97, 1, 1, 1]), [rate([1, 0, 0, 0]), rate([1, 0, 0, 0])]);
    expect(settled?.cut).toBeCloseTo(97, 9);
  });

  it('takes off what false alarms would cost, and no part goes below nothing', () => {
    const lines = ratingLines({
      tasks: [
        { kind: 'plan', weight: 50 },
        {
          kind: 'find',
          weight: 50,
          faults: { danger: 1, warning: 0, caution: 0 },
          lookAlikes: 4,
          near: 0,
        },
      ],
    });
    const of = (danger: number, order: number) => ({
      plan: 1,
      'find-danger': danger,
      'find-in-order': order,
    });
    // four look-alikes at 2 against one danger at 4: all taken in costs twice what the slot is worth
    expect(settleMark(lines, [of(1, 1), of(1, 1)])?.cut).toBeCloseTo(100, 9);
    expect(settleMark(lines, [of(1, 0.75), of(1, 0.75)])?.cut).toBeCloseTo(75, 9);
    expect(settleMark(lines, [of(1, 0), of(1, 0)])?.cut).toBeCloseTo(50, 9);
  });

  it('names what the trainers are furthest apart on', () => {
    const settled = settleMark(plain([1, 1, 1, 1]), [
      rate([0.9, 0.5, 0.5, 0.6]),
      rate([0.2, 0.5, 0.6, 0.9]),
    ]);
    expect(settled?.disputed).toEqual(['plan', 'set', 'react']);
  });

  it('is none from one opinion, and refuses a part left out', () => {
    const lines = plain([1, 1, 1, 1]);
    expect(settleMark(lines, [rate([1, 1, 1, 1])])).toBeNull();
    expect(() => settleMark(lines, [rate([1, 1, 1, 1]), { plan: 1 }])).toThrow(RangeError);
    expect(ratesAll(lines, { ...rate([1, 1, 1, 1]), extra: 1 })).toBe(false);
  });
});
