import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { measureBench, readBench, SETTINGS, transition } from '../../src/bench/index.ts';
import { adviseFor, sayAdvice } from '../../src/grading/index.ts';
import { judge } from '../../src/limits/index.ts';
import { type BenchOverrides, makeBench, makeBenchFile } from '../helpers/bench.ts';
import { judgeOne, limitSet } from '../helpers/rules.ts';

const advise = (limit: string, overrides: BenchOverrides, uncertainty = 0) =>
  adviseFor(judgeOne(limit, overrides, uncertainty), makeBench(overrides), [
    limitSet(limit.split('.')[0] ?? ''),
  ]);
const say = (limit: string, overrides: BenchOverrides, unit: 'mm' | 'inch' = 'mm') => {
  const advice = advise(limit, overrides);
  return advice === null ? null : sayAdvice(advice, unit);
};
const LOCKED = ', with the supply locked off.';

describe('advice on a setting that misses its limit', () => {
  test.each<[string, BenchOverrides, string]>([
    // R 200, edge 204, centre 12 past the axis: 14.2 mm at the table, sent to 5
    [
      'gb.knife.gap',
      { knife: { along: 12 } },
      `Slide the riving knife 11 mm toward the blade${LOCKED}`,
    ],
    [
      'eu.knife.gapMin',
      { knife: { along: -2 } },
      `Slide the riving knife 4 mm away from the blade${LOCKED}`,
    ],
    ['eu.knife.drop', { knife: { reach: 196 } }, `Raise the riving knife 3 mm${LOCKED}`],
    // further down it would come against the teeth
    ['practice.knife.drop', { knife: { reach: 203 } }, `Lower the riving knife 3.5 mm${LOCKED}`],
    ['us-ca.guard.clearance', { guard: { height: 70 } }, `Lower the crown guard 17 mm${LOCKED}`],
    ['practice.guard.clearance', { guard: { height: 48 } }, `Raise the crown guard 5 mm${LOCKED}`],
    [
      'practice.guard.leadFront',
      { guard: { front: -200, rear: 320 } },
      `Slide the crown guard 35 mm toward the operator${LOCKED}`,
    ],
    [
      'practice.guard.leadRear',
      { guard: { front: -320, rear: 200 } },
      `Slide the crown guard 35 mm toward the take-off end${LOCKED}`,
    ],
    [
      'gb.fence.overrun',
      { fence: { end: -100 } },
      `Draw the end of the fence 50 mm back toward the operator${LOCKED}`,
    ],
    ['gb.blade.through', { job: { stock: { thickness: 92 } } }, `Raise the blade 5 mm${LOCKED}`],
  ])('%s: %j', (limit, overrides, sentence) => {
    expect(say(limit, overrides)).toBe(sentence);
  });

  test('is said in inches too', () => {
    expect(say('us-ca.guard.clearance', { guard: { height: 70 } }, 'inch')).toBe(
      `Lower the crown guard 43/64 in${LOCKED}`,
    );
  });

  test('moves the part the measure is taken on before any other', () => {
    // raising or lowering the blade would move a knife on the frame as well
    const onFrame = { knife: { reach: 196, carriedBy: 'frame' } } as const;
    expect(advise('eu.knife.drop', onFrame)?.setting).toBe('knife.up');
  });

  test('is rounded to what a hand can set, where that still meets the limit', () => {
    const { step } = SETTINGS['knife.along'];
    const advice = advise('gb.knife.gap', { knife: { along: 12 } });
    expect((advice?.by ?? 0) / step).toBeCloseTo(Math.round((advice?.by ?? 0) / step), 9);
    expect(advice?.to).toBeCloseTo(12 + (advice?.by ?? 0), 9);
  });

  test('is given to a setting too close to call, and to one that advice alone speaks of', () => {
    expect(advise('gb.knife.gap', { knife: { along: 4.4 } }, 0.5)).not.toBeNull();
    expect(advise('gb.guard.clearance', { guard: { height: 70 } })?.setting).toBe('guard.height');
  });

  test.each<[string, string, BenchOverrides]>([
    ['a setting that is met', 'gb.knife.gap', {}],
    ['a part that is off', 'gb.knife.gap', { knife: null }],
    ['a word', 'gb.under', { underGuard: 'none' }],
    ['a time', 'gb.arbor.stop', { arbor: { runDown: 12 } }],
    ['a length nothing here moves', 'gb.stick.length', { people: { pushStick: { length: 300 } } }],
    [
      'a guard too short to cover both ends',
      'practice.guard.leadFront',
      { guard: { front: -200 } },
    ],
    [
      'a knife too short to reach up and stay near the teeth',
      'eu.knife.drop',
      { knife: { reach: 190 } },
    ],
    ['a thickness', 'gb.knife.thicker', { knife: { thickness: 2.5 } }],
    ['a field that is no measure', 'jp.guard.height', {}],
  ])('there is none for %s', (_what, limit, overrides) => {
    expect(advise(limit, overrides)).toBeNull();
  });

  test('brings the setting inside its limit when it is followed, wherever it started', () => {
    const limits = [
      'gb.knife.gap',
      'eu.knife.gapMax',
      'eu.knife.gapMin',
      'us-ca.guard.clearance',
      'practice.guard.leadFront',
      'gb.fence.overrun',
    ];
    const setting = (min: number, max: number) => fc.double({ min, max, noNaN: true });
    const benches = fc.record({
      along: setting(-1, 30),
      up: setting(-8, 4),
      height: setting(40, 120),
      front: setting(-260, -80),
      end: setting(-200, 120),
    });
    let followed = 0;
    fc.assert(
      fc.property(benches, ({ along, up, height, front, end }) => {
        const set = { knife: { along, up }, guard: { height, front, rear: 300 }, fence: { end } };
        const read = readBench(makeBenchFile(set));
        fc.pre(read.ok);
        if (!read.ok) return;
        const { bench } = read;
        for (const limit of limits) {
          const [id = ''] = limit.split('.');
          const judged = (at: typeof bench) =>
            judge(at, measureBench(at), limitSet(id)).find((one) => one.limit === limit)!;
          const advice = adviseFor(judged(bench), bench);
          if (advice === null) continue;
          followed += 1;
          const { part } = SETTINGS[advice.setting];
          const open = part === 'blade' ? bench : transition(bench, { do: 'unlock', part }).bench;
          const to = { do: 'set', setting: advice.setting, to: advice.to } as const;
          const step = transition(open, to);
          expect(judged(step.bench).verdict).toBe('within');
          expect(judged(step.bench).value).toBeCloseTo(advice.reads, 9);
        }
      }),
      { seed: 51, numRuns: 150 },
    );
    expect(followed).toBeGreaterThan(20);
  });
});
