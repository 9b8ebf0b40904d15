import { describe, expect, it } from 'vitest';
import {
  effectiveLength,
  type TestSitting,
  testFigures,
  trainerAgreement,
  type WatchedSheet,
} from '../../src/assessment/index.ts';

/*
 * Five questions of the law school admission test, section 6 (Bock and Lieberman 1970, 1000 people), as
 * published: how many gave each pattern of right answers, 00000 to 11111 in binary order; alpha of the
 * five .294997, item-rest correlations .11283 .15318 .17278 .14443 .12160, right 924 709 553 763 870.
 */
const PATTERNS = [
  3, 6, 2, 11, 1, 1, 3, 4, 1, 8, 0, 16, 0, 3, 2, 15, 10, 29, 14, 81, 3, 28, 15, 80, 16, 56, 21, 173,
  11, 61, 28, 298,
];
const LSAT: readonly TestSitting[] = PATTERNS.flatMap((count, pattern) =>
  Array.from({ length: count }, (_, i): TestSitting => {
    const marks = [4, 3, 2, 1, 0].map((bit) => (pattern >> bit) & 1);
    return {
      person: `${pattern}-${i}`,
      form: 'one form',
      score: 20 * marks.reduce((sum, mark) => sum + mark, 0),
      parts: Object.fromEntries(
        marks.map((mark, q) => [`q${q}`, { score: 100 * mark, weight: 3 }]),
      ),
      faults: Object.fromEntries(marks.map((mark, q) => [`q${q}`, mark === 1])),
      thought: { faults: { q0: 0.9, q1: pattern % 2 }, parts: { q0: 90 } },
      judgements: [],
    };
  }),
);

describe('figures about a test', () => {
  const figures = testFigures(LSAT, 60);

  it('give the published alpha over the parts', () => {
    expect(figures.reliability.value).toBeCloseTo(0.294997, 6);
    expect(figures.reliability.showing.show).toBe(true);
  });

  it('give the published item-rest correlations, of faults and of parts', () => {
    const published: Record<string, number> = {
      q0: 0.11283,
      q1: 0.15318,
      q2: 0.17278,
      q3: 0.14443,
      q4: 0.1216,
    };
    for (const { fault, discrimination } of figures.faults) {
      expect(discrimination).toBeCloseTo(published[fault] as number, 5);
    }
    for (const { part, discrimination } of figures.parts) {
      expect(discrimination).toBeCloseTo(published[part] as number, 5);
    }
  });

  it('put the hardest first, with the published number right', () => {
    expect(figures.faults.map(({ fault, right }) => [fault, right])).toEqual([
      ['q2', 553],
      ['q1', 709],
      ['q3', 763],
      ['q4', 870],
      ['q0', 924],
    ]);
    expect(figures.parts.find(({ part }) => part === 'q2')?.mean).toBeCloseTo(55.3, 9);
  });

  it('hold what was thought beside what was counted, and nothing where nobody guessed', () => {
    const thought = Object.fromEntries(figures.faults.map((one) => [one.fault, one.thought]));
    // q1 was guessed at 1 by those who got the last question right, 870 of 1000, and at 0 by the others
    expect(thought).toEqual({ q0: expect.closeTo(0.9, 9), q1: 0.87, q2: null, q3: null, q4: null });
    expect(figures.parts.map((one) => one.thought)).toEqual([
      expect.closeTo(90, 9),
      null,
      null,
      null,
      null,
    ]);
  });

  it('take the standard error from it: sd times the root of what is not reliable', () => {
    const mean = figures.scores.reduce((sum, score) => sum + score, 0) / 1000;
    const variance = figures.scores.reduce((sum, score) => sum + (score - mean) ** 2, 0) / 1000;
    expect(figures.error.value).toBeCloseTo(Math.sqrt(variance * (1 - 0.294997)), 4);
  });

  it('count the first sitting of each person only, unless asked for all', () => {
    const again: TestSitting[] = LSAT.slice(0, 40).map((one) => ({ ...one, person: 'same' }));
    expect(testFigures(again, null)).toMatchObject({ sittings: 40, counted: 1, people: 1 });
    expect(testFigures(again, null, 'all')).toMatchObject({ sittings: 40, counted: 40, people: 1 });
    expect(testFigures(again, null).exposure.value?.repeats).toBe(39);
  });

  it('stay quiet for a small sample and say how many are needed', () => {
    const small = testFigures(LSAT.slice(300, 303), 60);
    expect(small.reliability.showing).toMatchObject({ show: false, least: 30, have: 3 });
    expect(small.faults.every(({ difficultyShown }) => !difficultyShown.show)).toBe(true);
    expect(small.calibration).toMatchObject({ value: null, showing: { show: false, have: 0 } });
  });

  it('say nothing of nothing, and throw nothing', () => {
    const none = testFigures([], 60);
    expect(none).toMatchObject({ sittings: 0, scores: [], faults: [], parts: [] });
    expect([none.reliability.value, none.consistency.value, none.exposure.value]).toEqual([
      null,
      null,
      null,
    ]);
  });

  it('know no consistency without a pass mark', () => {
    expect(figures.consistency.value).not.toBeNull();
    expect(testFigures(LSAT, null).consistency.value).toBeNull();
  });
});

describe('the length of a test that has none', () => {
  it('is that at which KR-21 is its reliability: the example of Huynh comes back to its ten questions', () => {
    // 10 questions, mean 6.6, variance 5.84: KR-21 .684170 (the worked beta-binomial example)
    expect(effectiveLength({ mean: 0.66, variance: 5.84 / 100, reliability: 0.68417 })).toBe(10);
  });

  it('is none where nothing can be told', () => {
    expect(effectiveLength({ mean: 0.5, variance: 0, reliability: 0.5 })).toBeNull();
    expect(effectiveLength({ mean: 0.5, variance: 0.05, reliability: 0 })).toBeNull();
    expect(effectiveLength({ mean: 0.5, variance: 0.05, reliability: 1 })).toBeNull();
  });
});

describe('two trainers at one practical', () => {
  /** 50 criteria: 20 yes/yes, 5 yes/no, 10 no/yes, 15 no/no: kappa .4 from the definition. */
  const results = [
    ...Array.from({ length: 20 }, () => ['yes', 'yes'] as const),
    ...Array.from({ length: 5 }, () => ['yes', 'no'] as const),
    ...Array.from({ length: 10 }, () => ['no', 'yes'] as const),
    ...Array.from({ length: 15 }, () => ['no', 'no'] as const),
  ];
  const sheet = (
    trainer: string,
    which: 0 | 1,
    over: Partial<WatchedSheet> = {},
  ): WatchedSheet => ({
    trainer,
    person: 'mira',
    task: 'knife AL-01 rip',
    day: '2026-11-25',
    criteria: results.map((pair, i) => ({ id: `c${i}`, result: pair[which] })),
    ...over,
  });

  it('agree as the definition of kappa has it, whoever signed first', () => {
    for (const sheets of [
      [sheet('dev', 0), sheet('ruth', 1)],
      [sheet('ruth', 1), sheet('dev', 0)],
    ]) {
      const { practicals, value } = trainerAgreement(sheets);
      expect(practicals).toBe(1);
      expect(value?.kappa).toBeCloseTo(0.4, 9);
      expect(value?.ratings).toBe(50);
    }
  });

  it('are not compared over different days, people or tasks, nor one with themselves', () => {
    for (const other of [
      sheet('ruth', 1, { day: '2026-11-26' }),
      sheet('ruth', 1, { person: 'tom' }),
      sheet('ruth', 1, { task: 'knife AL-02 rip' }),
      sheet('dev', 1),
    ]) {
      expect(trainerAgreement([sheet('dev', 0), other])).toMatchObject({
        practicals: 0,
        value: null,
      });
    }
  });

  it('are not compared in what one of them did not see', () => {
    const blind = sheet('ruth', 1, {
      criteria: results.map((_, i) => ({ id: `c${i}`, result: 'not-seen' })),
    });
    expect(trainerAgreement([sheet('dev', 0), blind]).value).toBeNull();
  });
});
