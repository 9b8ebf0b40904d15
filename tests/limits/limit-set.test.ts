import { describe, expect, test } from 'vitest';
import { measureBench } from '../../src/bench/index.ts';
import { judge, type Result, readLimitSet } from '../../src/limits/index.ts';
import { type BenchOverrides, makeBench } from '../helpers/bench.ts';

type Group = Record<string, unknown>;

/** A set an employer could write, with one limit changed. */
function setFile(limit: Group = {}, set: Group = {}): Group {
  return {
    schema: 'limits/1',
    id: 'own',
    version: 1,
    title: 'Workshop rules',
    edition: 'Agreed in the workshop',
    caution: 'Not the law.',
    basis: 'own',
    documents: { rules: { title: 'Workshop rules', year: 2024 } },
    limits: [
      {
        id: 'own.knife.gap',
        title: 'Knife gap',
        measure: 'knife.gapMax',
        max: 6,
        unit: 'mm',
        source: { document: 'rules', seen: 'primary' },
        ...limit,
      },
    ],
    ...set,
  };
}

function refusal(limit: Group, set: Group = {}): string {
  const read = readLimitSet(setFile(limit, set));
  return read.ok ? 'accepted' : read.error.message;
}

function judgeFile(limit: Group, overrides: BenchOverrides = {}, set: Group = {}): Result {
  const read = readLimitSet(setFile(limit, set));
  if (!read.ok) throw new Error(read.error.message);
  const bench = makeBench(overrides);
  const [result] = judge(bench, measureBench(bench), read.set);
  if (result === undefined) throw new Error('no result');
  return result;
}

describe('a limit set file is refused with the field and what it may be', () => {
  test.each([
    [{ measure: 'knife.gapp' }, 'limits[0].measure must be a known measure or bench field.'],
    [{ max: undefined }, 'limits[0] must have min or max.'],
    [{ max: undefined, is: true }, 'limits[0].is does not fit knife.gapMax; use min or max.'],
    [{ min: 9 }, 'limits[0].max must be at least min (9).'],
    [{ max: 'job.cut' }, 'limits[0].max must be a number, or name a measure or field that is one.'],
    [{ max: { smallerOf: [3, 'job.cutt'] } }, 'limits[0].max.smallerOf[1] must be a number'],
    [{ max: Number.POSITIVE_INFINITY }, 'limits[0].max must be a number'],
    [{ unit: 's' }, 'limits[0].unit must be mm or in, as knife.gapMax is.'],
    [{ unit: 'cm' }, 'limits[0].unit must be one of: mm, in'],
    [{ id: 'gb.knife.gap' }, 'limits[0].id must start with own.'],
    [
      { source: { document: 'other', seen: 'primary' } },
      'limits[0].source.document must be one of the documents of this set: rules.',
    ],
    [
      { source: { document: 'rules', seen: 'heard' } },
      'limits[0].source.seen must be one of: primary, secondary, memory, practice.',
    ],
    [{ source: undefined }, 'limits[0].source must be given'],
    [
      { critical: true, grade: 'should' },
      'limits[0].critical can be true only when grade is must.',
    ],
    [
      { critical: true, source: { document: 'rules', seen: 'memory' } },
      'limits[0].critical must be false for a figure from memory, which never decides.',
    ],
    [{ aim: 'middle' }, 'limits[0].aim needs min or scale'],
    [{ max: undefined, min: 1, aim: 'low' }, 'limits[0].aim needs max or scale'],
    [{ scale: [3, 8] }, 'limits[0].scale goes only with: aim.'],
    [{ aim: 'middle', scale: [8, 3] }, 'limits[0].scale must list the least first.'],
    [{ when: { of: 'job.cut', is: 'saw' } }, 'limits[0].when.is must be one of: rip'],
    [
      { when: { outside: ['knife.gapMax'] } },
      'limits[0].when.outside can stand only in the condition of a fault.',
    ],
    [{ maximum: 6 }, 'limits[0] has no field named maximum.'],
    [
      { measure: 'underGuard', max: undefined, oneOf: ['open'], unit: 'word' },
      'limits[0].oneOf[0] must be one of: none, side-plates',
    ],
    [
      { measure: 'blade.condition.cracks', max: 1 },
      'limits[0].max does not fit blade.condition.cracks; use another measure.',
    ],
  ] as [Group, string][])('%j', (limit, message) => {
    expect(refusal(limit)).toContain(message);
  });

  test.each([
    [{ schema: 'limits/2' }, 'schema must be "limits/1".'],
    [{ version: 0 }, 'version must be a whole number from 1.'],
    [{ caution: '' }, 'caution must be text of 1 to 600 characters.'],
    [{ basis: 'rumour' }, 'basis must be one of: published, practice, own.'],
    [{ limits: [] }, 'limits must hold at least one limit.'],
    [{ id: 'Own Rules' }, 'id must be lower-case words joined by hyphens'],
  ] as [Group, string][])('%j', (set, message) => {
    expect(refusal({}, set)).toContain(message);
  });

  test('two limits with one id', () => {
    const [limit] = setFile()['limits'] as Group[];
    expect(refusal({}, { limits: [limit, limit] })).toContain(
      'limits must not use own.knife.gap twice',
    );
  });

  test.each([null, 7, 'text', []])('%j', (value) => {
    const read = readLimitSet(value);
    expect(read.ok ? '' : read.error.message).toContain(
      'The limit set must be given, as a group of fields.',
    );
  });
});

describe('ends', () => {
  test('includes the limit unless the file says otherwise', () => {
    const gap = { knife: { edgeRadius: 206, along: 0 } };
    expect(judgeFile({}, gap).verdict).toBe('within');
    expect(judgeFile({ maxInclusive: false }, gap).verdict).toBe('outside');
    expect(judgeFile({ max: undefined, min: 6 }, gap).verdict).toBe('within');
    expect(judgeFile({ max: undefined, min: 6, minInclusive: false }, gap).verdict).toBe('outside');
  });

  test('takes an end from the bench', () => {
    const limit = {
      measure: 'stick.lastFed',
      max: undefined,
      min: { smallerOf: [300, 'job.stock.length'] },
    };
    expect(judgeFile(limit, { job: { stock: { length: 2000 } } }).min).toBe(300);
    expect(judgeFile(limit, { job: { stock: { length: 250 } } }).min).toBe(250);
    const larger = {
      measure: 'stick.lastFed',
      max: undefined,
      min: { largerOf: [300, 'job.stock.length'] },
    };
    expect(judgeFile(larger, { job: { stock: { length: 2000 } } }).min).toBe(2000);
    expect(judgeFile({ max: 'knife.play' }, { knife: { play: 2 } }).max).toBe(2);
  });

  test('does not apply where its end hangs on a part that is off', () => {
    expect(
      judgeFile({ measure: 'blade.plate', max: 'knife.thickness' }, { knife: null }).verdict,
    ).toBe('not-applicable');
    for (const smallerOf of [
      ['knife.thickness', 2],
      [2, 'knife.thickness'],
    ]) {
      const other = { measure: 'blade.plate', max: { smallerOf } };
      expect(judgeFile(other, { knife: null })).toMatchObject({ verdict: 'outside', max: 2 });
    }
  });

  test('holds figures published in inches in millimetres, aim and scale too', () => {
    const limit = { max: 0.5, unit: 'in', aim: 'low', scale: [0, 1] };
    const result = judgeFile(limit, { knife: { edgeRadius: 212.7, along: 0 } });
    expect(result).toMatchObject({ unit: 'mm', verdict: 'within' });
    expect(result.max).toBeCloseTo(12.7, 12);
    expect(result.closeness).toBeCloseTo(0.5, 9);
  });

  test('judges a field of the bench that is no measure', () => {
    const limit = { measure: 'controls.stopReach', max: 500 };
    expect(judgeFile(limit, { controls: { stopReach: 500 } }).verdict).toBe('within');
    expect(judgeFile(limit, { controls: { stopReach: 501 } }).verdict).toBe('outside');
  });

  test('asks for a part to be fitted, or not', () => {
    const fitted = { measure: 'people.pushStick', max: undefined, fitted: true, unit: 'yes/no' };
    expect(judgeFile(fitted)).toMatchObject({ verdict: 'within', value: true });
    expect(judgeFile(fitted, { people: { pushStick: null } })).toMatchObject({
      verdict: 'outside',
      value: false,
    });
    expect(judgeFile({ ...fitted, fitted: false }).verdict).toBe('outside');
  });
});

describe('what may decide', () => {
  const far = { knife: { edgeRadius: 220, along: 0 } };
  const seen = (how: string) => ({ source: { document: 'rules', seen: how } });
  test.each(['published', 'practice', 'own'])(
    'a figure from memory never does, in a %s set',
    (basis) => {
      expect(judgeFile(seen('memory'), far, { basis })).toMatchObject({
        verdict: 'advice',
        holds: false,
        failed: null,
      });
    },
  );

  test('a word from memory fails no end', () => {
    const limit = { measure: 'underGuard', max: undefined, oneOf: ['enclosed'], unit: 'word' };
    const bare = { underGuard: 'none' as const };
    expect(judgeFile({ ...limit, ...seen('memory') }, bare)).toMatchObject({
      verdict: 'advice',
      holds: false,
      failed: null,
    });
  });

  test('a trade fact does only in a set of practice', () => {
    expect(judgeFile(seen('practice'), far, { basis: 'practice' }).verdict).toBe('outside');
    expect(judgeFile(seen('practice'), far, { basis: 'published' }).verdict).toBe('advice');
    expect(judgeFile(seen('practice'), far, { basis: 'own' }).verdict).toBe('advice');
  });

  test.each(['primary', 'secondary'])('a figure read in a %s text does', (how) => {
    expect(judgeFile(seen(how), far).verdict).toBe('outside');
  });

  test('a source carries document, clause, year and how it was seen', () => {
    const source = { document: 'rules', clause: '3', seen: 'secondary' };
    expect(judgeFile({ source }).source).toEqual({
      document: 'Workshop rules',
      clause: '3',
      year: 2024,
      seen: 'secondary',
    });
  });
});
