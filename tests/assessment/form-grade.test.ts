import { describe, expect, it } from 'vitest';
import {
  type Finding,
  type FormGrade,
  gradeForm,
  keyOf,
  makeForm,
  type PassMark,
  replayMoves,
  scoreSettings,
  showForm,
  type Work,
} from '../../src/assessment/index.ts';
import type { Action } from '../../src/bench/index.ts';
import { makeBench } from '../helpers/bench.ts';
import { rulesFor } from '../helpers/exam.ts';
import { knifeAround } from '../helpers/oracle-case.ts';
import { sitPerfectly } from '../helpers/perfect-candidate.ts';
import { limitSet } from '../helpers/rules.ts';

const rules = rulesFor('rip-test');
const form = makeForm(rules, 'grading');
const key = keyOf(form, rules);
const perfect = sitPerfectly(showForm(form, rules), rules);
const MARK: PassMark = { mark: 60, method: 'provisional', basis: 'for this test' };
const grade = (work: Work, pass: PassMark = MARK): FormGrade =>
  gradeForm({ form, work, rules, pass });
const barsOf = (work: Work, pass?: PassMark) => grade(work, pass).bars.map(({ kind }) => kind);
const scoreOf = (given: FormGrade, task: string) =>
  given.tasks.find((one) => one.task === task)!.score;

const findings = perfect['find']?.kind === 'find' ? perfect['find'].findings : [];
const withFindings = (list: readonly Finding[], actions: readonly Action[] = []): Work => ({
  ...perfect,
  find: { kind: 'find', actions: [...actions], findings: [...list] },
});

describe('a grade', () => {
  it('is 100 and passed for perfect work, and explains every point of it', () => {
    const given = grade(perfect);
    expect(given.score).toBeCloseTo(100, 9);
    expect([given.passed, given.bars]).toEqual([true, []]);
    for (const { lines, score } of given.tasks) {
      const points = lines.reduce((sum, line) => sum + line.points, 0);
      const of = lines.reduce((sum, line) => sum + line.of, 0);
      expect(score).toBeCloseTo((100 * points) / of, 9);
    }
  });

  it('is the weighted mean of its tasks, whatever was done', () => {
    const given = grade(withFindings(findings.slice(1)));
    const mean = given.tasks.reduce((sum, { weight, score }) => sum + weight * score, 0);
    expect(given.score).toBeCloseTo(mean / 100, 9);
  });

  it('is the same when graded again, and takes no notice of answers to tasks there are not', () => {
    const strange = { ...perfect, 'limit-99': { kind: 'limit', value: 1, within: [] } } as Work;
    expect(grade(strange)).toEqual(grade(perfect));
    const crossed = { ...perfect, plan: { kind: 'react', steps: ['a'] } } as Work;
    expect(scoreOf(grade(crossed), 'plan')).toBe(0);
  });

  it('of nothing is 0 and fails', () => {
    const given = grade({});
    expect(given.score).toBeLessThan(15);
    expect(given.passed).toBe(false);
  });

  it('says neither passed nor failed where no mark is set, and fails a critical miss all the same', () => {
    expect(grade(perfect, 'not-set-yet').passed).toBeNull();
    const dangers = new Set(
      key['find']?.kind === 'find'
        ? key['find'].faults.filter(({ critical }) => critical).map(({ id }) => id)
        : [],
    );
    const missed = findings.filter(({ fault }) => !dangers.has(fault));
    expect(dangers.size).toBeGreaterThan(0);
    expect(grade(withFindings(missed), 'not-set-yet').passed).toBe(false);
    expect(barsOf(withFindings(missed))).toContain('critical');
  });
});

describe('naming faults', () => {
  it('earns by severity, half with the wrong remedy', () => {
    const [first, ...rest] = findings;
    const severity = rules.catalogue.byId.get(first!.fault)!.severity;
    const worth = { danger: 4, warning: 2, caution: 1 }[severity];
    // 2 danger, 3 warning, 1 caution: 15 in all
    const left = scoreOf(grade(withFindings(rest)), 'find');
    expect(left).toBeCloseTo((100 * (15 - worth)) / 15, 9);
    const remedies = rules.catalogue.byId.get(first!.fault)!.remedies as readonly string[];
    const wrong = (['report', 'put-right', 'stop-isolate', 'take-out-of-service'] as const).find(
      (one) => !remedies.includes(one),
    )!;
    const half = scoreOf(grade(withFindings([{ ...first!, remedy: wrong }, ...rest])), 'find');
    expect(half).toBeCloseTo((100 * (15 - worth / 2)) / 15, 9);
  });

  it('what is not there costs what it would have earned', () => {
    const there = new Set(findings.map(({ part }) => part));
    const { fault: off } = rules.catalogue.entries.find(
      ({ fault }) => fault.severity === 'danger' && !there.has(fault.part),
    )!;
    const alarm = { part: off.part, fault: off.id, remedy: off.remedies[0]!, confidence: 'guess' };
    const given = grade(withFindings([...findings, alarm as Finding]));
    expect(scoreOf(given, 'find')).toBeCloseTo((100 * (15 - 4)) / 15, 9);
    const line = given.tasks[0]!.lines.find(({ what }) => what === 'false-alarm')!;
    expect([line.about, line.points, line.of]).toEqual([off.id, -4, 0]);
  });

  it('comes to a d-prime of exactly 0 for everything and for nothing, and neither passes', () => {
    const all = rules.catalogue.entries.map(({ fault: { id, part, remedies } }) => {
      return { part, fault: id, remedy: remedies[0]!, confidence: 'certain' as const };
    });
    for (const list of [all, []]) {
      const given = grade(withFindings(list));
      expect(given.detection?.sensitivity).toBeCloseTo(0, 9);
      expect(given.bars.map(({ kind }) => kind)).toContain('no-better-than-luck');
    }
    expect(grade(withFindings(findings)).detection!.sensitivity).toBeGreaterThan(4);
  });

  it('shows how sure somebody was against how right', () => {
    // certain is 0.95: all right, so 0.05 too modest
    const { calibration } = grade(perfect);
    expect(calibration?.count).toBe(6);
    expect(calibration?.overconfidence).toBeCloseTo(-0.05, 9);
    const guessed = findings.map((one) => ({ ...one, confidence: 'guess' as const }));
    expect(grade(withFindings(guessed)).calibration?.overconfidence).toBeCloseTo(-0.5, 9);
    expect(grade(withFindings([])).calibration).toBeNull();
  });
});

describe('hands at the blade', () => {
  it('with the supply on fail the form, however good the rest', () => {
    const find = form.tasks.find(({ kind }) => kind === 'find')!;
    const live = find.kind === 'find' && !find.bench.controls.isolated;
    const bars = barsOf(withFindings(findings, [{ do: 'try', part: 'guard' }]));
    expect(bars).toEqual(live ? ['not-isolated'] : []);
    const set = perfect['set'];
    const moves = set?.kind === 'set' ? set.moves.filter((move) => move.do !== 'isolate') : [];
    expect(barsOf({ ...perfect, set: { kind: 'set', moves } })).toContain('not-isolated');
  });
});

describe('setting', () => {
  const at = (gap: number) =>
    scoreSettings(makeBench(knifeAround(gap)), ['knife.gapAtTable'], [limitSet('gb')])[0]!.score!;

  it('counts how close: 60 at the limit, 100 from half-way to the best, nothing outside', () => {
    expect(at(7.999_999)).toBeCloseTo(60, 3);
    expect(at(6)).toBeCloseTo(80, 6);
    expect(at(4)).toBeCloseTo(100, 6);
    expect(at(2)).toBe(100);
    expect(at(8.01)).toBe(0);
  });

  it('is put out by a second set that is not met, whatever the first says', () => {
    const bench = makeBench({ guard: { front: -180 } });
    const of = (...sets: string[]) =>
      scoreSettings(bench, ['guard.leadFront'], sets.map(limitSet))[0]!.score;
    expect(of('gb')).toBeNull();
    expect(of('practice')).toBe(0);
  });

  it('a blade from the rack comes without a knife, and is not fitted with the supply on unmarked', () => {
    const task = form.tasks.find((one) => one.kind === 'set')!;
    const { state, effects } = replayMoves(task, [
      { do: 'fit', what: 'blade', id: task.blades[0]!.id },
    ]);
    expect(state).toMatchObject({ blade: task.blades[0]!.id, knife: null });
    expect(state.bench.knife).toBeNull();
    expect(effects).toEqual([{ move: 0, effect: { kind: 'not-isolated', action: 'fit' } }]);
  });

  it('what does not go on changes nothing and says so', () => {
    const task = form.tasks.find((one) => one.kind === 'set')!;
    const { state, effects } = replayMoves(task, [
      { do: 'isolate' },
      { do: 'fit', what: 'knife', id: 'no-such-knife' },
    ]);
    expect(state.knife).toBe(task.mounted.knife);
    expect(effects.map(({ effect }) => effect)).toEqual([
      { kind: 'cannot', what: 'knife', id: 'no-such-knife' },
    ]);
  });
});

describe('acting', () => {
  const id = form.tasks.find(({ kind }) => kind === 'react')!.id;
  const reactKey = key[id]?.kind === 'react' ? key[id] : null;
  const right = reactKey!.steps.map((step) => step.id);
  const act = (steps: readonly string[]) =>
    grade({ ...perfect, [id]: { kind: 'react', steps: [...steps] } });

  it('in the wrong order keeps the steps and loses the order: two thirds', () => {
    expect(scoreOf(act(right), id)).toBeCloseTo(100, 9);
    expect(scoreOf(act([...right].reverse()), id)).toBeCloseTo(200 / 3, 9);
  });

  it('with a slip that could cost a hand fails', () => {
    const slip = reactKey!.slips.find(({ critical }) => critical)!;
    expect(act([...right, slip.id]).bars.map(({ kind }) => kind)).toEqual(['critical']);
    expect(act([]).passed).toBe(false);
  });
});

describe('figures', () => {
  it('are right within a hundredth, and nothing marked earns nothing', () => {
    for (const task of form.tasks) {
      if (task.kind !== 'limit') continue;
      const limitKey = key[task.id]!;
      if (limitKey.kind !== 'limit') continue;
      const answer = (value: number | null, within: string[] = []) =>
        scoreOf(grade({ ...perfect, [task.id]: { kind: 'limit', value, within } }), task.id);
      if (task.ask === 'figure') {
        expect(answer(limitKey.figure * 1.009)).toBe(100);
        expect(answer(limitKey.figure * 1.02)).toBe(0);
      } else {
        expect(answer(null)).toBe(0);
        expect(
          answer(
            null,
            task.readings.map((one) => one.id),
          ),
        ).toBeLessThan(100);
      }
    }
  });
});
