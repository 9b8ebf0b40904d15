import { describe, expect, test } from 'vitest';
import { measureBench } from '../../src/bench/index.ts';
import { judge, type LimitSet, readLimitSet } from '../../src/limits/index.ts';
import { makeBench } from '../helpers/bench.ts';
import { knifeAround } from '../helpers/oracle-case.ts';
import { SETS } from '../helpers/rules.ts';

type Group = Record<string, unknown>;

const RULES = { document: 'rules', clause: '2', seen: 'primary' };

/** A workshop's own set on top of a published one, with one change. */
const fileOf = (change: Group | null, set: Group = {}): Group => ({
  schema: 'limits/1',
  id: 'alder',
  version: 3,
  title: 'Workshop rules',
  edition: 'Agreed in the workshop',
  caution: 'Not the law.',
  basis: 'own',
  extends: 'gb',
  documents: { rules: { title: 'Workshop rules', year: 2026 } },
  ...(change === null ? {} : { changes: [{ limit: 'gb.knife.gap', source: RULES, ...change }] }),
  ...set,
});

const stricter = { known: SETS, changes: 'stricter' } as const;

function readOwn(change: Group | null, set: Group = {}): LimitSet {
  const read = readLimitSet(fileOf(change, set), stricter);
  if (!read.ok) throw new Error(read.error.message);
  return read.set;
}

function refusalOf(change: Group | null, set: Group = {}) {
  const read = readLimitSet(fileOf(change, set), stricter);
  return read.ok ? { path: '', message: 'accepted' } : read.error;
}

function verdictOf(set: LimitSet, limit: string, gap: number) {
  const bench = makeBench(knifeAround(gap));
  return judge(bench, measureBench(bench), set).find((one) => one.limit === limit);
}

describe('a set that extends another', () => {
  test('holds every limit of it, in its order and under its own name', () => {
    const own = readOwn(null);
    const gb = SETS.get('gb');
    expect(own.limits.map(({ id }) => id)).toEqual(gb?.limits.map(({ id }) => id));
    expect(new Set(own.limits.map(({ set }) => set))).toEqual(new Set(['alder']));
    expect(own).toMatchObject({ id: 'alder', version: 3, base: `gb@${gb?.version}`, basis: 'own' });
  });

  test('changes a figure in its place, names it after itself, and keeps what it does not name', () => {
    const own = readOwn({ max: 6 });
    const was = SETS.get('gb')?.limits.find(({ id }) => id === 'gb.knife.gap');
    const at = SETS.get('gb')?.limits.findIndex(({ id }) => id === 'gb.knife.gap');
    const now = own.limits[at ?? -1];
    expect(now).toMatchObject({
      id: 'alder.knife.gap',
      changes: 'gb.knife.gap',
      title: was?.title,
      measure: was?.measure,
      grade: 'must',
      critical: true,
      aim: 'low',
      source: { document: 'Workshop rules', clause: '2', year: 2026, seen: 'primary' },
      asWritten: { min: null, max: 6 },
    });
    expect(own.limits.some(({ id }) => id === 'gb.knife.gap')).toBe(false);
    expect(own.limits.filter(({ changes }) => changes !== null)).toHaveLength(1);
  });

  test('judges by the new figure, at equality too, where the old one would pass', () => {
    const own = readOwn({ max: 6 });
    expect(verdictOf(own, 'alder.knife.gap', 6)?.verdict).toBe('within');
    expect(verdictOf(own, 'alder.knife.gap', 6.1)?.verdict).toBe('outside');
    expect(verdictOf(readOwn(null), 'gb.knife.gap', 6.1)?.verdict).toBe('within');
    const under = readOwn({ max: 6, maxInclusive: false });
    expect(verdictOf(under, 'alder.knife.gap', 6)?.verdict).toBe('outside');
  });

  test('adds limits of its own after those it takes over', () => {
    const limits = [
      {
        id: 'alder.play',
        title: 'Fence without play',
        measure: 'fence.play',
        max: 0,
        unit: 'mm',
        source: RULES,
      },
    ];
    const own = readOwn(null, { limits });
    expect(own.limits.at(-1)).toMatchObject({ id: 'alder.play', changes: null });
  });

  test('takes a figure in inches for one published in mm, and the other way about', () => {
    const quarter = readOwn({ max: 0.25, unit: 'in' });
    expect(verdictOf(quarter, 'alder.knife.gap', 6.35)?.verdict).toBe('within');
    expect(verdictOf(quarter, 'alder.knife.gap', 6.36)?.verdict).toBe('outside');
    const us = {
      extends: 'us-ca',
      changes: [{ limit: 'us-ca.guard.clearance', max: 5, unit: 'mm', source: RULES }],
    };
    const hood = readOwn(null, us).limits.find(({ changes }) => changes !== null);
    expect(hood).toMatchObject({ published: 'mm', wanted: { max: 5 } });
    const inches = {
      ...us,
      changes: [{ limit: 'us-ca.guard.clearance', max: 0.2, source: RULES }],
    };
    const held = readOwn(null, inches).limits.find(({ changes }) => changes !== null);
    expect(held?.wanted).toMatchObject({ max: 0.2 * 25.4 });
  });

  test('lets a figure from memory decide once it has a source of its own', () => {
    const own = readOwn({ limit: 'gb.guard.clearance', max: 10 });
    expect(SETS.get('gb')?.limits.find(({ id }) => id === 'gb.guard.clearance')?.decides).toBe(
      false,
    );
    expect(own.limits.find(({ id }) => id === 'alder.guard.clearance')?.decides).toBe(true);
  });

  test('may make a should a must, and a must one that stops the work', () => {
    const light = readOwn(null, {
      extends: 'eu',
      changes: [{ limit: 'eu.light', grade: 'must', critical: true, source: RULES, note: 'Ours.' }],
    });
    const limit = light.limits.find(({ id }) => id === 'alder.light');
    expect(limit).toMatchObject({ grade: 'must', critical: true, note: 'Ours.' });
  });

  test('narrows the band closeness is counted over', () => {
    const own = readOwn(null, {
      extends: 'eu',
      changes: [
        { limit: 'eu.knife.gapMin', min: 4, source: RULES },
        { limit: 'eu.knife.gapMax', max: 6, source: RULES },
      ],
    });
    const scales = own.limits.filter(({ changes }) => changes !== null).map(({ scale }) => scale);
    expect(scales).toEqual([
      { min: 4, max: 8 },
      { min: 3, max: 6 },
    ]);
  });

  test('allows fewer words, and other titles', () => {
    const own = readOwn({
      limit: 'gb.under',
      oneOf: ['enclosed'],
      title: 'Enclosed, nothing less',
    });
    const limit = own.limits.find(({ id }) => id === 'alder.under');
    expect(limit).toMatchObject({
      title: 'Enclosed, nothing less',
      wanted: { kind: 'word', allowed: ['enclosed'] },
    });
  });
});

describe('a change that would loosen is refused with its field', () => {
  const EU = (change: Group): Group => ({ extends: 'eu', changes: [{ source: RULES, ...change }] });
  test.each<[Group | null, Group, string, string]>([
    [
      { max: 9 },
      {},
      'changes[0].max',
      'changes[0].max must be at most 8 mm, to be as strict as gb.knife.gap.',
    ],
    [
      { max: 0.5, unit: 'in' },
      {},
      'changes[0].max',
      'changes[0].max must be at most 0.314961 in, to be as strict as gb.knife.gap.',
    ],
    [
      { limit: 'gb.stick.length', min: 400 },
      {},
      'changes[0].min',
      'changes[0].min must be at least 450 mm, to be as strict as gb.stick.length.',
    ],
    [
      { limit: 'gb.arbor.stop', max: 12 },
      {},
      'changes[0].max',
      'changes[0].max must be at most 10, to be as strict as gb.arbor.stop.',
    ],
    [
      { limit: 'gb.knife.thicker', minInclusive: true },
      {},
      'changes[0].min',
      'changes[0].min must be at least 0 mm, to be as strict as gb.knife.thicker.',
    ],
    [
      { limit: 'gb.noise.lower', maxInclusive: true },
      {},
      'changes[0].max',
      'changes[0].max must be at most 80, to be as strict as gb.noise.lower.',
    ],
    [
      { limit: 'gb.stick.last', min: 400 },
      {},
      'changes[0].min',
      'changes[0].min cannot be held against gb.stick.last, whose figure hangs on the bench; add a limit instead.',
    ],
    [
      { grade: 'should' },
      {},
      'changes[0].grade',
      'changes[0].grade must stay must, as in gb.knife.gap.',
    ],
    [
      { critical: false },
      {},
      'changes[0].critical',
      'changes[0].critical must stay true, as in gb.knife.gap.',
    ],
    [
      { source: { document: 'rules', seen: 'memory' } },
      {},
      'changes[0].source.seen',
      'changes[0].source.seen must be primary or secondary: gb.knife.gap decides.',
    ],
    [
      { limit: 'gb.under', oneOf: ['side-plates'] },
      {},
      'changes[0].oneOf',
      'changes[0].oneOf must be some of: enclosed, extraction-hood.',
    ],
    [
      null,
      EU({ limit: 'eu.light', critical: true }),
      'changes[0].critical',
      'changes[0].critical can be true only when grade is must.',
    ],
    [
      {
        limit: 'gb.guard.clearance',
        critical: true,
        source: { document: 'rules', seen: 'memory' },
      },
      {},
      'changes[0].critical',
      'changes[0].critical must be false for a figure that never decides.',
    ],
  ])('%j %j', (change, set, path, message) => {
    expect(refusalOf(change, set)).toEqual({ path, message });
  });
});

describe('a change that cannot be made is refused with its field', () => {
  test.each<[Group | null, Group, string]>([
    [
      { limit: 'gb.knife.gapp', max: 6 },
      {},
      'changes[0].limit must name a limit of gb: gb.knife.fitted, gb.knife.gap',
    ],
    [{ limit: 'gb.under', max: 6 }, {}, 'changes[0].max does not fit underGuard.'],
    [{ limit: 'gb.under', minInclusive: false }, {}, 'changes[0].min does not fit underGuard.'],
    [{ oneOf: ['enclosed'] }, {}, 'changes[0].oneOf does not fit knife.gapAtTable.'],
    [{ limit: 'gb.knife.fitted', oneOf: ['yes'] }, {}, 'changes[0].oneOf does not fit knife.'],
    [{ unit: 's', max: 6 }, {}, 'changes[0].unit must be mm or in.'],
    [{ limit: 'gb.arbor.stop', unit: 'mm', max: 6 }, {}, 'changes[0].unit must be s.'],
    [{ min: 7, max: 6 }, {}, 'changes[0].max must leave room between min and max.'],
    [{ limit: 'gb.knife.gap', min: 9 }, {}, 'changes[0].min must leave room between min and max.'],
    [{ max: '6' }, {}, 'changes[0].max must be a number.'],
    [{ measure: 'knife.gapMax' }, {}, 'changes[0] has no field named measure.'],
    [
      { max: 6, source: { document: 'other', seen: 'primary' } },
      {},
      'changes[0].source.document must be one of the documents of this set: rules.',
    ],
    [null, { extends: 'mars' }, `extends must name one of: ${[...SETS.keys()].join(', ')}.`],
    [{ max: 6 }, { extends: undefined }, 'changes goes only with: extends.'],
    [null, { extends: undefined }, 'limits must hold at least one limit.'],
  ])('%j %j', (change, set, message) => {
    expect(refusalOf(change, set).message).toContain(message);
  });

  test('where no set can be extended, it says so', () => {
    const read = readLimitSet(fileOf({ max: 6 }));
    expect(read.ok ? '' : read.error.message).toBe('extends must name one of: none here.');
  });

  test('a published set may loosen what it builds on: its text says so', () => {
    const read = readLimitSet(fileOf({ max: 9 }, { basis: 'published' }), {
      known: SETS,
      changes: 'any',
    });
    expect(read.ok).toBe(true);
  });
});
