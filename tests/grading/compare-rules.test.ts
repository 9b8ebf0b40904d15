import { describe, expect, test } from 'vitest';
import { compareRules, gradeBench, reportComparison, topicOf } from '../../src/grading/index.ts';
import { type BenchOverrides, makeBench } from '../helpers/bench.ts';
import { knifeAround } from '../helpers/oracle-case.ts';
import { CATALOGUE, limitSet, SETS } from '../helpers/rules.ts';

function compare(sets: readonly string[], overrides: BenchOverrides = {}, uncertainty = 0) {
  const bench = makeBench(overrides);
  return compareRules({ bench, sets: sets.map(limitSet), catalogue: CATALOGUE, uncertainty });
}
const rowOf = (compared: ReturnType<typeof compare>, topic: string) =>
  compared.rows.find((row) => row.topic.id === topic);
const standsOf = (compared: ReturnType<typeof compare>, topic: string) =>
  Object.fromEntries(rowOf(compared, topic)?.cells.map(({ set, stand }) => [set, stand]) ?? []);

describe('one bench under several sets', () => {
  // the knife gap: eu 8, gb 8, de-site 10, za 12, us-ca 12.7, hk 15 (sources in the sets)
  test('a knife gap of 11 mm flips between sets that take it at the table and at its widest', () => {
    const compared = compare(['gb', 'eu', 'de-site', 'za', 'us-ca', 'hk'], knifeAround(11));
    expect(rowOf(compared, 'knife.gapAtTable')?.agreement).toBe('flips');
    expect(standsOf(compared, 'knife.gapAtTable')).toEqual({
      gb: 'outside',
      eu: 'outside',
      'de-site': 'outside',
      za: 'within',
      'us-ca': 'within',
      hk: 'within',
    });
    expect(compared.grades.map(({ grade }) => grade.fit)).toEqual([
      false,
      false,
      false,
      true,
      true,
      true,
    ]);
  });

  test('names the failing limit first, of several on one topic', () => {
    const cell = rowOf(compare(['eu', 'gb'], knifeAround(2.5)), 'knife.gapAtTable')?.cells[0];
    expect(cell).toMatchObject({ set: 'eu', stand: 'outside', stops: true });
    expect(cell?.results.map(({ limit, verdict }) => [limit, verdict])).toEqual([
      ['eu.knife.gapMin', 'outside'],
      ['eu.knife.gapMax', 'within'],
    ]);
  });

  test('tells a refusal that others are silent about from a flip', () => {
    const compared = compare(['us', 'nz'], {});
    expect(rowOf(compared, 'guard.kind')?.agreement).toBe('one-sided');
    expect(standsOf(compared, 'guard.kind')).toEqual({ us: 'outside', nz: 'silent' });
  });

  test('does not call it a flip where one set only advises, or both agree', () => {
    expect(rowOf(compare(['gb', 'hk'], knifeAround(5, 2)), 'knife.tipDrop')?.agreement).toBe(
      'same',
    );
    expect(rowOf(compare(['gb', 'eu']), 'knife')?.agreement).toBe('same');
    // 30 down: hk refuses it, gb only advises
    const low = compare(['gb', 'hk'], knifeAround(5, 30));
    expect(rowOf(low, 'knife.tipDrop')?.agreement).toBe('one-sided');
  });

  test('a setting too close to call under one and within under another flips', () => {
    const compared = compare(['gb', 'us-ca'], knifeAround(7.8), 0.5);
    expect(standsOf(compared, 'knife.gapAtTable')).toEqual({ gb: 'too-close', 'us-ca': 'within' });
    expect(rowOf(compared, 'knife.gapAtTable')?.agreement).toBe('flips');
  });

  test('lists faults found under some of the sets, with those sets', () => {
    const compared = compare(['gb', 'us-ca', 'hk'], {
      ...knifeAround(13),
      place: { litter: true },
    });
    expect(compared.faults.map(({ fault, under }) => [fault.id, under])).toEqual([
      ['knife-too-far', ['gb', 'us-ca']],
    ]);
  });

  test('gives each set the grade it gives by itself', () => {
    const bench = makeBench(knifeAround(9));
    const compared = compareRules({ bench, sets: [...SETS.values()], catalogue: CATALOGUE });
    for (const { set, grade } of compared.grades) {
      expect(grade, set.id).toEqual(gradeBench({ bench, sets: [set], catalogue: CATALOGUE }));
    }
    expect(compared.rows.every(({ cells }) => cells.length === SETS.size)).toBe(true);
  });

  test('shows every result that applies once, on one topic', () => {
    const { grades, rows } = compare(['gb', 'eu', 'jp'], knifeAround(9));
    const shown = rows.flatMap(({ cells }) => cells.flatMap(({ results }) => results));
    const applying = grades.flatMap(({ grade }) =>
      grade.results.filter(({ verdict }) => verdict !== 'not-applicable'),
    );
    expect(shown).toHaveLength(applying.length);
    expect(new Set(shown)).toEqual(new Set(applying));
  });
});

describe('topics', () => {
  test('join what sets ask of one thing in different ways, and nothing else', () => {
    const topic = (measure: string) => topicOf({ measure, title: 'A title' });
    expect(topic('knife.gapMax')).toEqual(topic('knife.gapAtTable'));
    expect(topic('knife.arcShare').id).toBe('knife.gapAtTable');
    expect(topic('knife.tipHeight')).toEqual(topic('knife.tipDrop'));
    expect(topic('guard.height')).toEqual(topic('guard.clearance'));
    expect(topic('blade.rimSpeed')).toEqual({ id: 'blade.rimSpeed', title: 'Rim speed' });
    expect(topic('guard.fingers')).toEqual({ id: 'guard.fingers', title: 'A title' });
  });
});

describe('a comparison for other programs', () => {
  test('names each set with its version, and each topic they part on with its limits', () => {
    const report = reportComparison(compare(['gb', 'us-ca'], knifeAround(10)));
    expect(report.sets).toMatchObject([
      { id: 'gb', version: limitSet('gb').version, fit: false },
      { id: 'us-ca', version: limitSet('us-ca').version, fit: true },
    ]);
    expect(report.flips).toEqual([
      {
        topic: 'knife.gapAtTable',
        agreement: 'flips',
        verdicts: { gb: 'outside', 'us-ca': 'within' },
        limits: ['gb.knife.gap', 'us-ca.knife.gap'],
      },
    ]);
    expect(JSON.parse(JSON.stringify(report))).toEqual(report);
  });
});
