import { describe, expect, it } from 'vitest';
import type { AttemptRecord, SaidGrade } from '../../src/attempts/index.ts';
import { mostMissed } from '../../src/components/people/most-missed.ts';
import { nextStep, type StandingRow } from '../../src/components/people/next-step.ts';
import { sayIn } from '../../src/words/say.ts';

const TASKS = [
  { id: 'walk-round', title: 'Walk round the bench' },
  { id: 'knife-and-guard', title: 'Set the riving knife and the guard' },
];
const NOW = '2026-03-03T10:00:00.000Z';

const fault = (id: string, critical: boolean) => ({
  fault: id,
  part: 'knife',
  title: `Fault ${id}`,
  why: '',
  todo: '',
  looks: '',
  from: '',
  critical,
});

const GRADE: SaidGrade = {
  found: [],
  missed: [],
  wrong: [],
  left: [],
  settings: [],
  readings: [],
  choice: null,
  predictions: [],
  cut: null,
  critical: [],
  score: 90,
  fit: true,
};

const attempt = (task: string, grade: Partial<SaidGrade> | null): AttemptRecord => ({
  id: 'a',
  person: 'p',
  task: { id: task, title: task },
  startedAt: NOW,
  handedInAt: grade === null ? null : NOW,
  grade: grade === null ? null : { ...GRADE, ...grade },
  actions: [],
  claims: [],
  effects: [],
  cuts: [],
  end: null,
  remark: null,
});

const row = (state: StandingRow['status']['state'], until: string | null): StandingRow => ({
  bench: { id: 'b', asset: 'AL-01', title: 'Bench 1' },
  work: 'rip',
  status: { state, until, because: [] },
});

describe('the next step of a trainee', () => {
  const step = (attempts: AttemptRecord[], rows: StandingRow[] = []) =>
    nextStep(attempts, rows, TASKS, { now: NOW, say: sayIn('en') });
  const walked = attempt('walk-round', {});
  const set = attempt('knife-and-guard', {});

  it('is the lesson for somebody who has handed nothing in', () => {
    expect(step([]).href).toBe('/lessons/riving-knife');
    expect(step([attempt('walk-round', null)]).href).toBe('/lessons/riving-knife');
  });

  it('is a task not done yet, looking before setting', () => {
    expect(step([set]).href).toBe('/bench/walk-round');
    expect(step([walked]).href).toBe('/bench/knife-and-guard');
  });

  it('is the same task again after a critical miss, whatever the score', () => {
    const again = step([set, attempt('walk-round', { missed: [fault('crack', true)], score: 99 })]);
    expect(again.href).toBe('/bench/walk-round');
    expect(again.say).toContain('fault crack');
  });

  it('is the same task again after work at a live blade', () => {
    const again = step([attempt('knife-and-guard', { critical: ['…'] }), walked]);
    expect(again.href).toBe('/bench/knife-and-guard');
    expect(again.say).toContain('could have hurt somebody');
  });

  it('goes by the newest attempt of a task, not by an older one', () => {
    const older = attempt('walk-round', { missed: [fault('crack', true)] });
    expect(step([set, walked, older]).say).toContain('ready to be watched');
  });

  it('lets a fault that does not stop the work pass', () => {
    expect(step([set, attempt('walk-round', { missed: [fault('dull', false)] })]).say).toContain(
      'ready to be watched',
    );
  });

  it('is a new practical when a sign-off ends within sixty days or has ended', () => {
    expect(step([walked, set], [row('signed-off', '2026-05-02')]).say).toContain(
      'ends on 2 May 2026',
    );
    expect(step([walked, set], [row('ended', '2026-01-31')]).say).toContain(
      'ended on 31 January 2026',
    );
    expect(step([walked, set], [row('signed-off', '2026-05-03')]).say).not.toContain('ends on');
  });

  it('never says that anybody is competent or licensed', () => {
    const said = [
      step([]),
      step([walked, set]),
      step([walked, set], [row('signed-off', '2029-03-03')]),
    ];
    for (const { say } of said) expect(say).not.toMatch(/competent|licen[cs]e|authoris/i);
  });
});

describe('what is missed most', () => {
  const missed = mostMissed([
    { grade: { ...GRADE, missed: [fault('a', true), fault('b', false)] } },
    {
      grade: {
        ...GRADE,
        missed: [fault('a', true)],
        found: [{ ...fault('b', false), remedyRight: true }],
      },
    },
    { grade: { ...GRADE, found: [{ ...fault('c', false), remedyRight: false }] } },
    { grade: null },
  ]);

  it('counts misses against how often the fault was there', () => {
    expect(missed.map(({ fault: id, missed: times, present }) => [id, times, present])).toEqual([
      ['a', 2, 2],
      ['b', 1, 2],
    ]);
  });

  it('leaves out a fault that was always found', () => {
    expect(missed.some(({ fault: id }) => id === 'c')).toBe(false);
  });
});
