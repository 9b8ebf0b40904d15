import { describe, expect, test } from 'vitest';
import { measureBench } from '../../src/bench/index.ts';
import {
  BENCH_SCOPE,
  type Condition,
  ConditionSchema,
  checkCondition,
  compileCondition,
  type FailedEnds,
} from '../../src/limits/index.ts';
import { type BenchOverrides, makeBench } from '../helpers/bench.ts';

const NOTHING: FailedEnds = new Map();

/** Whether a condition, as a content file writes it, holds for the sound bench so changed. */
function holds(condition: Condition, overrides: BenchOverrides = {}, failed = NOTHING): boolean {
  const bench = makeBench(overrides);
  return compileCondition(ConditionSchema.parse(condition))(bench, measureBench(bench), failed);
}

/** What the checker says of a condition: `path: message` of each problem. */
function problems(condition: unknown, verdicts: 'known' | 'unknown' = 'known'): string[] {
  const found: string[] = [];
  checkCondition(
    ConditionSchema.parse(condition),
    { scope: BENCH_SCOPE, verdicts },
    (path, message) => found.push(`${path.join('.')}: ${message}`),
  );
  return found;
}

describe('a comparison', () => {
  const cases: readonly (readonly [Condition, BenchOverrides, BenchOverrides])[] = [
    [{ of: 'job.cut', is: 'groove' }, { job: { cut: 'groove' } }, {}],
    [{ of: 'job.cut', isNot: 'rip' }, { job: { cut: 'groove' } }, {}],
    [{ of: 'job.cut', oneOf: ['groove', 'rebate'] }, { job: { cut: 'rebate' } }, {}],
    [{ of: 'job.cut', noneOf: ['rip', 'bevel'] }, { job: { cut: 'rebate' } }, {}],
    [{ of: 'place.litter', is: true }, { place: { litter: true } }, {}],
    [{ of: 'blade.teeth', is: 40 }, { blade: { teeth: 40 } }, {}],
    [{ of: 'blade.teeth', isNot: 36 }, { blade: { teeth: 40 } }, {}],
    [{ of: 'knife.play', above: 0 }, { knife: { play: 0.5 } }, {}],
    [{ of: 'fence.toe', below: 0 }, { fence: { toe: -0.5 } }, {}],
    [{ of: 'arbor.runDown', atLeast: 10 }, { arbor: { runDown: 10 } }, {}],
    [{ of: 'arbor.runDown', atMost: 7 }, { arbor: { runDown: 7 } }, {}],
    [
      { of: 'blade.condition.cracks', empty: false },
      { blade: { condition: { cracks: [{ length: 9, at: 'rim' }] } } },
      {},
    ],
    [{ of: 'knife', missing: true }, { knife: null }, {}],
    [{ of: 'insert.gaps.1', above: 5 }, { insert: { gaps: [3, 6] } }, { insert: { gaps: [6, 3] } }],
    [
      { of: 'blade.condition.cracks', some: { of: 'at', is: 'gullet' } },
      {
        blade: {
          condition: {
            cracks: [
              { length: 3, at: 'rim' },
              { length: 9, at: 'gullet' },
            ],
          },
        },
      },
      { blade: { condition: { cracks: [{ length: 3, at: 'rim' }] } } },
    ],
    [
      {
        of: 'blade.condition.cracks',
        some: {
          all: [
            { of: 'at', is: 'rim' },
            { of: 'length', atLeast: 25.4 },
          ],
        },
      },
      { blade: { condition: { cracks: [{ length: 25.4, at: 'rim' }] } } },
      {
        blade: {
          condition: {
            cracks: [
              { length: 25.3, at: 'rim' },
              { length: 40, at: 'bore' },
            ],
          },
        },
      },
    ],
    [
      { of: 'people.operator.z', atMost: 'fence.face' },
      { people: { operator: { z: 150 } } },
      { people: { operator: { z: 151 } } },
    ],
    [{ of: 'blade.diameter', above: 'arbor.largestBlade' }, { arbor: { largestBlade: 399 } }, {}],
  ];
  for (const [condition, where, whereNot] of cases) {
    test(`${JSON.stringify(condition)} tells the two benches apart`, () => {
      expect(holds(condition, where)).toBe(true);
      expect(holds(condition, whereNot)).toBe(false);
    });
  }

  test('holds at equality to one millionth, either way', () => {
    expect(holds({ of: 'fence.toe', atLeast: 0.3 }, { fence: { toe: 0.1 + 0.2 - 1e-7 } })).toBe(
      true,
    );
    expect(holds({ of: 'fence.toe', above: 0.3 }, { fence: { toe: 0.1 + 0.2 } })).toBe(false);
    expect(holds({ of: 'fence.toe', is: 0.3 }, { fence: { toe: 0.1 + 0.2 } })).toBe(true);
  });

  test('with several comparisons wants all of them', () => {
    const between: Condition = { of: 'arbor.runDown', above: 5, below: 9 };
    expect(holds(between, { arbor: { runDown: 8 } })).toBe(true);
    expect(holds(between, { arbor: { runDown: 9 } })).toBe(false);
    expect(holds(between, { arbor: { runDown: 5 } })).toBe(false);
  });

  test.each([
    { of: 'knife.play', atLeast: 0 },
    { of: 'knife.thickness', isNot: 1 },
    { of: 'guard.kind', noneOf: ['fixed'] },
    { of: 'guard.coversGullets', isNot: true },
    { of: 'knife.locked', is: false },
    { of: 'people.takeOff.x', below: 'knife.along' },
  ] as Condition[])('%j is false when the part is off', (condition) => {
    expect(holds(condition, { knife: null, guard: null })).toBe(false);
  });

  test('missing: false holds when the part is there', () => {
    expect(holds({ of: 'knife', missing: false })).toBe(true);
    expect(holds({ of: 'knife', missing: false }, { knife: null })).toBe(false);
  });
});

describe('all, any and not', () => {
  const yes: Condition = { of: 'job.cut', is: 'rip' };
  const no: Condition = { of: 'job.cut', is: 'groove' };
  test.each([
    [{ all: [yes, yes] }, true],
    [{ all: [yes, no] }, false],
    [{ all: [yes] }, true],
    [{ any: [no, yes] }, true],
    [{ any: [no, no] }, false],
    [{ not: no }, true],
    [{ not: { any: [no, yes] } }, false],
  ] as [Condition, boolean][])('%j is %s', (condition, expected) => {
    expect(holds(condition)).toBe(expected);
  });
});

describe('outside', () => {
  // bits of failed ends: least 1, greatest 2, word 4, each 8 times that for a "should"
  const gap = (bits: number): FailedEnds => new Map([['knife.gapMax', bits]]);
  const outside: Condition = { outside: ['knife.play', 'knife.gapMax'] };
  test.each([
    [outside, 1, true],
    [outside, 2, true],
    [outside, 4, true],
    [outside, 16, false],
    [{ ...outside, end: 'max' }, 2, true],
    [{ ...outside, end: 'max' }, 1, false],
    [{ outside: ['knife.play'] }, 2, false],
  ] as [Condition, number, boolean][])(
    '%j with bits %d failed is %s',
    (condition, bits, expected) => {
      expect(holds(condition, {}, gap(bits))).toBe(expected);
    },
  );

  test('is false where nothing failed, and counts a failed "should" where it may', () => {
    expect(holds(outside)).toBe(false);
    const bench = makeBench();
    const weak = compileCondition(outside, 'should');
    expect(weak(bench, measureBench(bench), gap(16))).toBe(true);
  });
});

describe('problems a content file can have', () => {
  test.each([
    [{ of: 'job.cutt', is: 'rip' }, 'of: must be a known measure or bench field'],
    [
      { of: 'job.cut', is: 'ripp' },
      'is: must be one of: rip, crosscut, bevel, deep, rebate, groove',
    ],
    [{ of: 'job.cut', oneOf: ['rip', 'crosscutt'] }, 'oneOf.1: must be one of'],
    [{ of: 'job.cut', isNot: 'ripp' }, 'isNot: must be one of: rip, crosscut'],
    [{ of: 'job.cut', noneOf: ['rip', 'crosscutt'] }, 'noneOf.1: must be one of: rip, crosscut'],
    [
      { of: 'blade.teeth', above: 'blade.tooths' },
      'above: must be a number, or name a measure or field that is one',
    ],
    [{ of: 'job.cut', above: 3 }, 'above: cannot be asked of job.cut, which is a word'],
    [{ of: 'knife.gapMax', is: 'far' }, 'is: must be a number, as knife.gapMax is'],
    [{ of: 'place.litter', is: 'yes' }, 'is: must be true or false, as place.litter is'],
    [{ of: 'knife', above: 3 }, 'above: cannot be asked of knife, which is a whole part'],
    [
      { of: 'blade.teeth', empty: true },
      'empty: cannot be asked of blade.teeth, which is a number',
    ],
    [{ of: 'blade.teeth' }, ': must compare blade.teeth, with one of'],
    [
      { of: 'blade.teeth', above: 'job.cut' },
      'above: must be a number, or name a measure or field that is one',
    ],
    [
      { of: 'blade.condition.cracks', some: { of: 'where', is: 'rim' } },
      'some.of: must be a known',
    ],
    [{ is: 'rip' }, ': must have exactly one of: all, any, not, of, outside'],
    [
      { all: [{ of: 'job.cut', is: 'rip' }], of: 'job.cut', is: 'rip' },
      ': must have exactly one of',
    ],
    [{ all: [{ of: 'job.cut', is: 'rip' }], is: 'rip' }, ': compares something'],
    [{ of: 'job.cut', is: 'rip', end: 'max' }, 'end: goes only with: outside'],
    [{ outside: ['knife.gap'] }, 'outside.0: must be a known measure or bench field'],
    [{ any: [{ not: { of: 'nothing', is: 1 } }] }, 'any.0.not.of: must be a known'],
  ] as [Condition, string][])('%j: %s', (condition, message) => {
    expect(problems(condition)[0]).toContain(message);
  });

  test('a limit cannot hang on whether limits fail', () => {
    expect(problems({ outside: ['knife.gapMax'] }, 'unknown')[0]).toContain(
      'only in the condition of a fault',
    );
  });

  test('an unknown operator is refused by name', () => {
    const parsed = ConditionSchema.safeParse({ of: 'blade.teeth', over: 3 });
    expect(parsed.error?.issues[0]?.message).toBe('has no field named over');
  });
});
