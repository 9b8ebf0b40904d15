import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import {
  type Answer,
  answersInCourse,
  type CourseLesson,
  chanceRemembered,
  findDue,
  mergeAnswers,
  NEWEST_KEPT,
  readCourse,
  recallAll,
  remember,
} from '../../src/assessment/review/index.ts';

const DAY = 86_400_000;
const START = Date.parse('2026-03-02T08:00:00.000Z');
const at = (days: number) => new Date(START + Math.round(days * DAY)).toISOString();

const answers = fc
  .array(
    fc.record({
      id: fc.integer({ min: 0, max: 40 }).map((n) => `a${n}`),
      lesson: fc.constantFrom('one', 'two'),
      question: fc.constantFrom('p', 'q'),
      right: fc.boolean(),
      at: fc.double({ min: 0, max: 900, noNaN: true }).map(at),
    }),
    { maxLength: 60 },
  )
  .map((list): Answer[] => list);
const oneQuestion = fc.array(
  fc.record({ right: fc.boolean(), gap: fc.double({ min: 0, max: 500, noNaN: true }) }),
  { minLength: 1, maxLength: 20 },
);

describe('the chance that a thing is remembered', () => {
  // Oracle: worked out by hand from R = (1 + f t/S)^-d, f = .9^(-1/d) - 1, d = .5: f = .2345679
  it.each([
    [0, 30, 1],
    [15, 30, 0.946059],
    [30, 30, 0.9],
    [60, 30, 0.825029],
    [3, 3, 0.9],
  ])('%d days after, stability %d: %d', (days, stability, chance) => {
    expect(chanceRemembered(days, stability)).toBeCloseTo(chance, 6);
  });

  it('sinks with time and never leaves 0 to 1', () => {
    const days = fc.double({ min: 0, max: 1e5, noNaN: true });
    const stability = fc.double({ min: 0.25, max: 365, noNaN: true });
    fc.assert(
      fc.property(days, days, stability, (a, b, s) => {
        const [soon, late] = a < b ? [a, b] : [b, a];
        expect(chanceRemembered(late, s)).toBeLessThanOrEqual(chanceRemembered(soon, s));
        expect(chanceRemembered(late, s)).toBeGreaterThan(0);
        expect(chanceRemembered(soon, s)).toBeLessThanOrEqual(1);
      }),
    );
  });
});

describe('an answer', () => {
  it('given right on the day it is due makes the time longer and longer, up to a year', () => {
    let memory = remember(null, { right: true, at: at(0) });
    const times = [memory.stability];
    for (let i = 0; i < 8; i += 1) {
      memory = remember(memory, { right: true, at: memory.dueAt });
      times.push(memory.stability);
    }
    expect(times.map((days) => Math.round(days * 10) / 10)).toEqual([
      3, 7.5, 18.8, 46.9, 117.2, 293, 365, 365, 365,
    ]);
  });

  it('given right again at once proves nothing', () => {
    const wrong = remember(null, { right: false, at: at(0) });
    const again = remember(wrong, { right: true, at: at(0) });
    expect(again.stability).toBe(wrong.stability);
  });

  it('given wrong brings the question back within two days', () => {
    let memory = remember(null, { right: true, at: at(0) });
    for (let i = 0; i < 8; i += 1) memory = remember(memory, { right: true, at: memory.dueAt });
    const lost = remember(memory, { right: false, at: at(800) });
    expect(lost.stability).toBe(2);
    expect(lost.dueAt).toBe(at(802));
  });

  it('is never due before it was given; right never shortens, wrong never lengthens', () => {
    fc.assert(
      fc.property(oneQuestion, (given) => {
        let days = 0;
        let before: ReturnType<typeof remember> | null = null;
        for (const { right, gap } of given) {
          days += gap;
          const after = remember(before, { right, at: at(days) });
          expect(Date.parse(after.dueAt)).toBeGreaterThan(START + days * DAY);
          if (before !== null && right) {
            expect(after.stability).toBeGreaterThanOrEqual(before.stability);
            expect(Date.parse(after.dueAt)).toBeGreaterThanOrEqual(Date.parse(before.dueAt));
          }
          if (before !== null && !right) {
            expect(after.stability).toBeLessThanOrEqual(before.stability);
          }
          const other = remember(before, { right: !right, at: at(days) });
          const [known, lost] = right ? [after, other] : [other, after];
          expect(known.stability).toBeGreaterThanOrEqual(lost.stability);
          before = after;
        }
      }),
    );
  });
});

describe('the answers of several devices', () => {
  it('come together the same whatever the order, the grouping and the number of times', () => {
    fc.assert(
      fc.property(answers, answers, answers, (a, b, c) => {
        expect(mergeAnswers(a, b)).toEqual(mergeAnswers(b, a));
        expect(mergeAnswers(mergeAnswers(a, b), c)).toEqual(mergeAnswers(a, mergeAnswers(b, c)));
        const once = mergeAnswers(a, b);
        expect(mergeAnswers(once, once)).toEqual(once);
        expect(mergeAnswers(once, a)).toEqual(once);
      }),
    );
  });

  it('give the same memory in whatever order they arrive', () => {
    fc.assert(
      fc.property(answers, fc.integer({ min: 0, max: 1000 }), (list, turn) => {
        const unique = mergeAnswers(list, []);
        const cut = unique.length === 0 ? 0 : turn % unique.length;
        const turned = [...unique.slice(cut), ...unique.slice(0, cut)].reverse();
        expect(recallAll(turned, at(1000))).toEqual(recallAll(unique, at(1000)));
      }),
    );
  });

  it('keep the newest to each question, and the first right one', () => {
    const many = Array.from({ length: 40 }, (_, i) => ({
      id: `a${i}`,
      lesson: 'one',
      question: 'p',
      right: i === 3,
      at: at(i),
    }));
    const kept = mergeAnswers(many, []);
    expect(kept).toHaveLength(NEWEST_KEPT + 1);
    expect(kept[0]?.id).toBe('a3');
    expect(kept.at(-1)?.id).toBe('a39');
  });
});

describe('what is due', () => {
  const given = (question: string, right: boolean, days: number): Answer => ({
    id: `${question}-${days}`,
    lesson: 'one',
    question,
    right,
    at: at(days),
  });
  const list = [given('p', true, 0), given('q', false, 0), given('r', true, 2)];

  it('comes most forgotten first, and the next is named', () => {
    const { due, next } = findDue(list, at(4));
    expect(due.map(({ question }) => question)).toEqual(['q', 'p']);
    expect(next).toMatchObject({ question: 'r', dueAt: at(5) });
  });

  it('is due from the very instant on', () => {
    expect(findDue(list, at(3)).due.map(({ question }) => question)).toContain('p');
    const before = new Date(Date.parse(at(3)) - 1).toISOString();
    expect(findDue(list, before).due.map(({ question }) => question)).toEqual(['q']);
  });

  it('is nothing where nothing was answered', () => {
    expect(findDue([], at(0))).toEqual({ due: [], next: null });
  });
});

describe('the course', () => {
  const lesson = (id: string, more: Partial<CourseLesson> = {}): CourseLesson => ({
    id,
    after: [],
    who: 'trainee',
    asks: ['p', 'q'],
    tasks: [],
    ...more,
  });
  const COURSE = [
    lesson('signing', { who: 'trainer' }),
    lesson('first', { tasks: ['walk'] }),
    lesson('second', { after: ['first', 'gone'] }),
    lesson('third', { after: ['second'] }),
  ];
  const right = (name: string, question: string, isRight = true): Answer => ({
    id: `${name}-${question}`,
    lesson: name,
    question,
    right: isRight,
    at: at(0),
  });
  const FIRST = [right('first', 'p'), right('first', 'q')];

  it('begins with the first of the trainees’ lessons', () => {
    const read = readCourse(COURSE, { answers: [], tasks: [] });
    expect([...read].filter(([, one]) => one.isNext).map(([id]) => id)).toEqual(['first']);
    expect(read.get('second')?.waitsFor).toEqual(['first']);
    expect(read.get('signing')?.waitsFor).toEqual([]);
  });

  it('has a lesson done when each question was right once and the bench task was opened', () => {
    const open = readCourse(COURSE, { answers: FIRST, tasks: [] });
    expect(open.get('first')).toMatchObject({ right: 2, isDone: false, tasksLeft: ['walk'] });
    const done = readCourse(COURSE, { answers: FIRST, tasks: ['walk'] });
    expect(done.get('first')).toMatchObject({ isDone: true, isNext: false });
    expect(done.get('second')).toMatchObject({ isNext: true, waitsFor: [] });
    expect(done.get('third')).toMatchObject({ isNext: false, waitsFor: ['second'] });
  });

  it('does not count wrong answers or questions that are no longer asked', () => {
    const answered = [right('first', 'p'), right('first', 'q', false), right('first', 'z')];
    const read = readCourse(COURSE, { answers: answered, tasks: ['walk'] });
    expect(read.get('first')).toMatchObject({ right: 1, asked: 2, isDone: false, isBegun: true });
  });

  it('leaves out answers to questions that are no longer asked', () => {
    const answered = [right('first', 'p'), right('first', 'z'), right('gone', 'p')];
    expect(answersInCourse(COURSE, answered)).toEqual([answered[0]]);
  });

  it('has no lesson done that asks nothing', () => {
    const read = readCourse([lesson('empty', { asks: [] })], { answers: [], tasks: [] });
    expect(read.get('empty')?.isDone).toBe(false);
  });
});
