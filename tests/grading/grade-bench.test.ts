import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import {
  type BenchGrade,
  gradeBench,
  gradeSettings,
  reportGrade,
  scoreResult,
} from '../../src/grading/index.ts';
import { type BenchOverrides, makeBench } from '../helpers/bench.ts';
import { FAULTY_BENCHES } from '../helpers/faulty-benches.ts';
import { knifeAround } from '../helpers/oracle-case.ts';
import { CATALOGUE, judgeOne, limitSet, SETS } from '../helpers/rules.ts';
import { soundUnder } from '../helpers/sound-under.ts';

function grade(
  sets: readonly string[],
  overrides: BenchOverrides = {},
  uncertainty = 0,
): BenchGrade {
  return gradeBench({
    bench: makeBench(overrides),
    sets: sets.map(limitSet),
    catalogue: CATALOGUE,
    uncertainty,
  });
}

describe('score of one setting', () => {
  test('is 60 at the limit, 100 at the aim, 0 outside', () => {
    expect(scoreResult(judgeOne('eu.knife.gapMax', knifeAround(8)))).toBeCloseTo(60, 6);
    expect(scoreResult(judgeOne('eu.knife.gapMax', knifeAround(5.5)))).toBeCloseTo(100, 6);
    expect(scoreResult(judgeOne('eu.knife.gapMax', knifeAround(4)))).toBeCloseTo(76, 6);
    expect(scoreResult(judgeOne('eu.knife.gapMax', knifeAround(8.1)))).toBe(0);
  });

  test('is taken from the reading where it is too close to call', () => {
    expect(scoreResult(judgeOne('gb.knife.gap', knifeAround(7.9), 0.5))).toBeCloseTo(60.5, 6);
    expect(scoreResult(judgeOne('gb.knife.gap', knifeAround(8.1), 0.5))).toBe(0);
  });

  test('does not exist where nothing decides', () => {
    expect(scoreResult(judgeOne('gb.knife.drop'))).toBeNull();
    expect(scoreResult(judgeOne('gb.knife.gap', { knife: null }))).toBeNull();
  });
});

describe('a whole bench', () => {
  test.each([...SETS.keys()])('that is sound is fit under %s, with nothing found', (set) => {
    const { fit, faults, results, limits } = grade([set], soundUnder(set));
    expect({ fit, faults, limits }).toEqual({ fit: true, faults: [], limits: set });
    expect(results.filter(({ verdict }) => verdict === 'outside')).toEqual([]);
  });

  test('scores the mean of the settings that were decided', () => {
    const { score, results } = grade(['eu']);
    const scores = results.map(scoreResult).filter((one) => one !== null);
    expect(score).toBeCloseTo(scores.reduce((sum, one) => sum + one, 0) / scores.length, 9);
    expect(scores.length).toBeLessThan(results.length);
  });

  test('is unfit with one critical limit failed, whatever the mean', () => {
    const { fit, score } = grade(['gb'], knifeAround(8.1));
    expect(fit).toBe(false);
    expect(score).toBeGreaterThan(80);
  });

  test('stays fit with a limit failed that is not critical, at a lower score', () => {
    const short = grade(['gb'], { people: { pushStick: { length: 449 } } });
    expect(short.fit).toBe(true);
    expect(short.score).toBeLessThan(Number(grade(['gb']).score));
  });

  test('stays fit with a should failed, at a lower score', () => {
    const dim = grade(['eu'], { place: { light: 300 } });
    expect(dim.fit).toBe(true);
    expect(dim.score).toBeLessThan(Number(grade(['eu']).score));
  });

  test('is unfit where a critical setting is not shown to be within', () => {
    expect(grade(['gb'], knifeAround(7.9)).fit).toBe(true);
    expect(grade(['gb'], knifeAround(7.9), 0.5).fit).toBe(false);
    expect(grade(['gb'], knifeAround(7.9), 0.5).faults).toEqual([]);
    expect(grade(['gb'], { people: { pushStick: { length: 450 } } }, 0.3).fit).toBe(true);
  });

  test('is unfit with a critical fault that no limit of the set speaks of', () => {
    const { fit, results } = grade(['practice'], { driveGuard: 'none' });
    expect(fit).toBe(false);
    expect(results.filter(({ verdict }) => verdict === 'outside')).toEqual([]);
  });

  test('is fit with a fault that is not critical', () => {
    expect(grade(['gb'], { place: { litter: true } })).toMatchObject({
      fit: true,
      faults: [{ id: 'litter' }],
    });
  });

  test('is not condemned by a figure from memory', () => {
    expect(grade(['gb'], { guard: { height: 70 } }).fit).toBe(true);
  });

  test('is held against several sets at once, the strictest deciding', () => {
    const both = grade(['us-ca', 'gb'], knifeAround(10));
    expect(both).toMatchObject({ limits: 'us-ca,gb', fit: false });
    expect(both.results.map(({ set }) => set)).toEqual([
      ...grade(['us-ca']).results.map(({ set }) => set),
      ...grade(['gb']).results.map(({ set }) => set),
    ]);
    expect(grade(['us-ca'], knifeAround(10)).fit).toBe(true);
  });

  test('has no score where no limit decides anything', () => {
    const bench = makeBench();
    expect(gradeBench({ bench, sets: [], catalogue: CATALOGUE }).score).toBeNull();
  });

  test('is unfit exactly when something critical fails, on every faulty bench', () => {
    for (const { bench, set, fault } of FAULTY_BENCHES) {
      const { fit, faults, results } = grade([set], bench);
      const critical =
        faults.some((one) => one.critical) ||
        results.some((one) => one.critical && one.verdict === 'outside');
      expect(fit, fault).toBe(!critical);
    }
  });

  test('grades the same bench the same, and leaves it as it was', () => {
    const bench = makeBench(knifeAround(10));
    const before = structuredClone(bench);
    const rules = { bench, sets: [limitSet('gb')], catalogue: CATALOGUE };
    expect(gradeBench(rules)).toEqual(gradeBench(rules));
    expect(bench).toEqual(before);
  });

  test('never gets fitter as the knife moves away', () => {
    const gap = fc.double({ min: 0.5, max: 30, noNaN: true });
    fc.assert(
      fc.property(gap, gap, (a, b) => {
        const near = grade(['gb'], knifeAround(Math.min(a, b)));
        const far = grade(['gb'], knifeAround(Math.max(a, b)));
        expect(near.fit || !far.fit).toBe(true);
        expect(Number(near.score)).toBeGreaterThanOrEqual(Number(far.score) - 1e-9);
      }),
      { seed: 31, numRuns: 60 },
    );
  });
});

describe('a report for other programs', () => {
  test('has the names it promises and no others', () => {
    const report = reportGrade(grade(['gb'], knifeAround(10)));
    expect(Object.keys(report)).toEqual([
      'limits',
      'fit',
      'score',
      'measures',
      'results',
      'faults',
    ]);
    expect(report.measures['blade.projection']).toEqual({ value: 90, unit: 'mm' });
    const gap = report.results.find(({ limit }) => limit === 'gb.knife.gap');
    expect(gap).toEqual({
      limit: 'gb.knife.gap',
      measure: 'knife.gapAtTable',
      value: expect.closeTo(10, 9),
      unit: 'mm',
      verdict: 'outside',
      margin: expect.closeTo(-2, 9),
      closeness: 0,
      critical: true,
      source: {
        document: 'HSE, circular saw bench (rip saw) page',
        clause: 'on the riving knife',
        year: null,
        seen: 'primary',
      },
    });
    expect(report.faults).toEqual([{ id: 'knife-too-far', part: 'knife', critical: true }]);
    expect(JSON.parse(JSON.stringify(report))).toEqual(report);
  });
});

describe('settings a person was asked to make', () => {
  const ask = (overrides: BenchOverrides, uncertainty = 0) =>
    gradeSettings({
      bench: makeBench(overrides),
      sets: [limitSet('gb'), limitSet('practice')],
      measures: ['knife.gapAtTable', 'guard.leadFront', 'knife.tipDrop'],
      uncertainty,
    });

  test('are graded alone', () => {
    const { results, met, critical, score } = ask({
      place: { litter: true },
      guard: { height: 90 },
    });
    expect(results.map(({ limit }) => limit)).toEqual([
      'gb.knife.gap',
      'gb.knife.drop',
      'practice.knife.drop',
      'practice.guard.leadFront',
    ]);
    expect({ met, critical }).toEqual({ met: true, critical: [] });
    expect(score).toBeGreaterThan(60);
  });

  test('name the critical limits not shown to be met', () => {
    expect(ask(knifeAround(8.1))).toMatchObject({ met: false, critical: ['gb.knife.gap'] });
    expect(ask(knifeAround(7.9), 0.5)).toMatchObject({ met: false, critical: ['gb.knife.gap'] });
  });

  test('are not met with a must failed that is not critical', () => {
    expect(ask({ guard: { front: -200 } })).toMatchObject({ met: false, critical: [] });
  });

  test('are met with only a should failed', () => {
    expect(ask(knifeAround(5, 0))).toMatchObject({ met: true });
  });
});
