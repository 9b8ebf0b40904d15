import { describe, expect, it } from 'vitest';
import {
  type Attempt,
  gradeAttempt,
  kindsOf,
  type Move,
  type Task,
  TaskSchema,
} from '../../src/assessment/index.ts';
import type { Bench } from '../../src/bench/index.ts';
import { loadBenches, loadFaultCatalogue, loadRacks } from '../../src/store/content-files.ts';
import { limitSet } from '../helpers/rules.ts';
import { CUT, doTask } from '../helpers/task-candidate.ts';

const rack = loadRacks().get('alder-lane')!;
const rules = {
  sets: [limitSet('gb'), limitSet('practice')],
  catalogue: loadFaultCatalogue(),
  rack,
};
const SOUND = loadBenches().get('lesson-bench')!;

const taskOf = (fields: object): Task =>
  TaskSchema.parse({
    id: 'a-task',
    title: 'A task',
    brief: 'Do it.',
    mode: 'practice',
    bench: 'lesson-bench',
    limits: ['gb', 'practice'],
    faults: false,
    settings: [],
    ...fields,
  });

const grade = (task: Task, work: Partial<Attempt> = {}) =>
  gradeAttempt({ task, start: SOUND, actions: [], claims: [], ...work }, rules);

describe('a choice from the rack', () => {
  const task = taskOf({ choose: true });
  const take = (what: 'blade' | 'knife' | 'insert', id: string): Move => ({ do: 'fit', what, id });
  const chosen = (...moves: Move[]) =>
    grade(task, { actions: [{ do: 'isolate' }, ...moves] }).choice!;
  const line = (choice: ReturnType<typeof chosen>, what: string) =>
    choice.lines.find((one) => one.what === what)!;

  it('is right in all three with what the page on choosing a blade advises', () => {
    const { actions } = doTask({ task, start: SOUND, rules });
    expect(grade(task, { actions }).choice).toMatchObject({ score: 100 });
  });

  it('lets a panel blade do for ripping, and says that it rubs and what would be better', () => {
    const blade = line(chosen(take('blade', 'panel-303-96')), 'blade');
    expect(blade).toMatchObject({ verdict: 'will-do', worth: 0.6 });
    expect(blade.reasons.map(({ says }) => says).join()).toContain('rubs');
    expect(blade.better.length).toBeGreaterThan(0);
  });

  it('counts a blade marked too slow for this spindle wrong, by its mark', () => {
    const blade = line(chosen(take('blade', 'plate-457-12g')), 'blade');
    expect(blade.verdict).toBe('wrong');
    expect(blade.reasons.map(({ says }) => says).join()).toMatch(/rpm|larger|mm/);
  });

  it('counts a knife no thicker than the plate wrong, and none at all', () => {
    const blade = take('blade', 'rip-400-24');
    expect(line(chosen(blade, take('knife', 'knife-32')), 'knife').verdict).toBe('right');
    const thin = line(chosen(blade, take('knife', 'knife-20')), 'knife');
    expect(thin).toMatchObject({ verdict: 'wrong' });
    expect(thin.reasons[0]?.says).toContain('no thicker than the plate');
    expect(line(chosen(blade), 'knife').verdict).toBe('wrong');
  });

  it('counts an insert that rubs and one that gapes wrong', () => {
    const blade = take('blade', 'rip-400-24');
    const wide = line(chosen(blade, take('insert', 'insert-20')), 'insert');
    expect(wide.verdict).toBe('wrong');
    const narrow = chosen(take('blade', 'rip-350-28'), take('insert', 'insert-4'));
    expect(line(narrow, 'insert').reasons[0]?.says).toContain('rubs');
  });

  it('leaves a cracked blade a wrong one, and taking a sound one of the kind mends it', () => {
    const cracked = {
      ...SOUND,
      blade: {
        ...SOUND.blade,
        condition: {
          ...SOUND.blade.condition,
          cracks: [{ at: 'gullet', length: 8, tooth: 3 }],
        },
      },
    } as unknown as Bench;
    const left = grade(task, { start: cracked }).choice!;
    expect(line(left, 'blade').verdict).toBe('wrong');
    expect(line(left, 'blade').reasons[0]?.says).toMatch(/crack/i);
    const { actions } = doTask({ task, start: cracked, rules });
    const mended = grade(task, { start: cracked, actions }).choice!;
    expect(line(mended, 'blade').verdict).toBe('right');
  });

  it('keeps the worn insert worn when only the blade is changed', () => {
    const worn = { ...SOUND, insert: { ...SOUND.insert, worn: true } };
    const actions: Move[] = [{ do: 'isolate' }, take('blade', 'rip-400-24')];
    expect(grade(task, { start: worn, actions }).end.insert.worn).toBe(true);
  });

  it('marks taking a blade off with the supply on', () => {
    const on = { ...SOUND, controls: { ...SOUND.controls, isolated: false } };
    const { critical } = grade(task, { start: on, actions: [take('blade', 'rip-400-24')] });
    expect(critical.map(({ kind }) => kind)).toEqual(['not-isolated']);
  });

  it('gives nothing from a rack in a task that leaves no choice', () => {
    const { end, effects } = grade(taskOf({ cut: true }), {
      actions: [take('blade', 'rip-400-24')],
    });
    expect(end).toEqual(SOUND);
    expect(effects.map(({ effect }) => effect.kind)).toEqual(['cannot']);
  });
});

describe('figures said beforehand', () => {
  const task = taskOf({
    predict: [
      { id: 'rim', ask: 'How fast is the rim?', of: 'blade.rimSpeed', within: 1 },
      {
        id: 'slower',
        ask: 'Fed at 4?',
        of: 'cut.feedPerTooth',
        change: { 'job.fed': 4 },
        within: 0.002,
      },
    ],
  });
  // v = pi d n, as every book on cutting has it
  const rim = (Math.PI * SOUND.blade.diameter * SOUND.arbor.speed) / 60_000;
  const perTooth = (4 * 1000) / (SOUND.arbor.speed * SOUND.blade.teeth);

  it('are right within the room given, worked out on the bench the question asks of', () => {
    const said = [
      { id: 'rim', value: rim + 0.99, after: 0 },
      { id: 'slower', value: perTooth, after: 0 },
    ];
    const { predictions, score } = grade(task, { said });
    expect(predictions?.results.map(({ right }) => right)).toEqual([true, true]);
    expect(score).toBe(100);
    expect(grade(task, { said: [{ id: 'rim', value: rim + 1.01, after: 0 }] }).score).toBe(0);
  });

  it('take the last number said, and count one said after a trial as late', () => {
    const said = [
      { id: 'rim', value: 3, after: 0 },
      { id: 'rim', value: rim, after: 1 },
    ];
    const actions: Move[] = [{ do: 'isolate' }, { do: 'unlock', part: 'knife' }];
    expect(grade(task, { said, actions }).predictions?.results[0]).toMatchObject({ right: true });
    const late = [{ id: 'rim', value: rim, after: 2 }];
    expect(grade(task, { said: late, actions }).predictions?.results[0]).toMatchObject({
      right: false,
      late: true,
    });
  });

  it('tell how the figure comes about, from figures of the bench', () => {
    const [first] = grade(task).predictions!.results;
    expect(first?.said).toBeNull();
    expect(first?.steps[0]?.from.map(({ name }) => name)).toEqual([
      'blade.diameter',
      'arbor.speed',
    ]);
  });

  it('say in one sentence what a bench has not', () => {
    const nowhere = taskOf({
      predict: [
        { id: 'x', ask: 'What?', of: 'blade.rimSpeed', change: { 'blade.size.x': 4 }, within: 1 },
      ],
    });
    expect(() => grade(nowhere)).toThrow('There is no field named blade.size.x on this bench.');
    const wild = taskOf({
      predict: [
        { id: 'x', ask: 'What?', of: 'blade.rimSpeed', change: { 'job.fed': -4 }, within: 1 },
      ],
    });
    expect(() => grade(wild)).toThrow(/^The bench cannot be changed so: /);
  });
});

describe('a trial cut', () => {
  const task = taskOf({ cut: true });
  it('counts when it goes through on a sound bench with nobody in the strip', () => {
    const { cut, critical } = grade(task, { actions: CUT });
    expect(critical).toEqual([]);
    expect(cut).toMatchObject({ score: 100, outcome: 'smooth' });
  });

  it('is not made by doing nothing, nor by stopping part way', () => {
    expect(grade(task).cut).toMatchObject({ score: 0, outcome: null });
    const short = CUT.map((one): Move => (one.do === 'feed' ? { do: 'feed', stopped: 1 } : one));
    expect(grade(task, { actions: short }).cut).toMatchObject({ score: 0, outcome: 'stopped' });
  });

  it('counts for nothing without a knife, however it ends', () => {
    const { cut } = grade(task, { start: { ...SOUND, knife: null }, actions: CUT });
    expect(cut?.score).toBe(0);
    expect(cut?.lines.find(({ what }) => what === 'no-critical')?.held).toBe(false);
  });

  it('counts for nothing when somebody reached in beforehand', () => {
    const actions: Move[] = [
      { do: 'reconnect' },
      { do: 'unlock', part: 'fence' },
      { do: 'lock', part: 'fence' },
    ];
    expect(grade(task, { actions: [...actions, ...CUT] }).cut?.score).toBe(0);
  });
});

it('says what a task asks for in the order it is done', () => {
  const task = taskOf({
    cut: true,
    choose: true,
    faults: true,
    predict: [{ id: 'x', ask: 'What?', of: 'blade.rimSpeed', within: 1 }],
    settings: ['knife.gapAtTable'],
    readings: ['blade-kerf'],
  });
  expect(kindsOf(task)).toEqual(['predict', 'find', 'choose', 'set', 'measure', 'cut']);
});
