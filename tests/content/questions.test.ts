import { describe, expect, it } from 'vitest';
import { findFigure } from '../../src/bench/index.ts';
import { QuestionFileSchema } from '../../src/components/lesson/lesson-schema.ts';
import { shuffledOrder } from '../../src/components/lesson/shuffled-order.ts';
import { formatLength } from '../../src/geometry/index.ts';
import {
  judgeChoice,
  judgeLength,
  judgeMatch,
  judgeNumber,
  judgeOrder,
} from '../../src/panels/lesson/judge-answer.ts';
import { loadBenches } from '../../src/store/content-files.ts';
import { LESSON_IDS, readLesson, readQuestions } from './read-lesson.ts';

describe.each(LESSON_IDS)('questions of %s', (id) => {
  const questions = readQuestions(id);
  const bench = loadBenches().get(readLesson(id).head.bench) as never;

  it('are at least five, of at least three kinds', () => {
    expect(questions.length).toBeGreaterThanOrEqual(5);
    expect(new Set(questions.map((one) => one.kind)).size).toBeGreaterThanOrEqual(3);
  });

  it.each(questions.map((one) => [one.id, one] as const))(
    '%s can be answered, and answered wrong',
    (_, question) => {
      if (question.kind === 'number') {
        const at = question.bench ? loadBenches().get(question.bench) : bench;
        const { value, unit: measured } = findFigure(at as never, question.answer);
        const answer = { value, within: question.within };
        if (measured !== 'mm') {
          expect(judgeNumber(value.toFixed(4), answer).verdict).toBe('right');
          const wrong = (value + 2 * question.within).toFixed(4);
          expect(judgeNumber(wrong, answer).verdict).toBe('wrong');
          return;
        }
        for (const unit of ['mm', 'inch'] as const) {
          const off = 2 * question.within + 5;
          expect(judgeLength(formatLength(value, unit, 3), unit, answer).verdict).toBe('right');
          expect(judgeLength(formatLength(value + off, unit), unit, answer).verdict).toBe('wrong');
        }
      } else if (question.kind === 'order') {
        const right = question.steps.map((_step, i) => i);
        expect(judgeOrder(right).verdict).toBe('right');
        expect(judgeOrder(shuffledOrder(question.steps.length, question.id)).verdict).toBe('wrong');
      } else if (question.kind === 'match') {
        const right = question.pairs.map((_pair, i) => i);
        expect(judgeMatch(right).verdict).toBe('right');
        expect(judgeMatch(right.toReversed()).verdict).toBe('wrong');
        expect(judgeMatch(right.with(0, null as never)).verdict).toBe('unread');
      } else if (question.kind === 'mark') {
        // judged on the drawing itself, in a browser: tests/e2e/lesson-questions.spec.ts
        expect(question.within).toBeGreaterThan(0);
      } else {
        const options = question.options.map(({ right }) => ({ right, chosen: right }));
        expect(judgeChoice(options).verdict).toBe('right');
        for (const [i, option] of options.entries()) {
          const one = options.with(i, { ...option, chosen: !option.chosen });
          expect(judgeChoice(one).verdict).not.toBe('right');
        }
      }
    },
  );
});

describe('a number answer', () => {
  const answer = { value: 1, within: 0.05 };
  it('is read as typed, comma or point, with or without its unit', () => {
    for (const typed of ['1', '1.0', '1,0 mm', '0.95', '1.05']) {
      expect(judgeLength(typed, 'mm', answer).verdict).toBe('right');
    }
    expect(judgeLength('1.06', 'mm', answer).verdict).toBe('wrong');
  });

  it('allows for the rounding of inch fractions, and no more', () => {
    // 11/64 less 1/8, worked from the fractions shown, is 3/64 in = 1.19 mm
    expect(judgeLength('3/64', 'inch', answer).verdict).toBe('right');
    expect(judgeLength('5/64', 'inch', answer).verdict).toBe('wrong');
  });

  it('says in one sentence what cannot be read', () => {
    const read = judgeLength('one', 'mm', answer);
    expect(read).toEqual({
      verdict: 'unread',
      because: 'The length must be one number, such as 7.5 or 5/16.',
    });
    expect(judgeLength('', 'mm', answer).verdict).toBe('unread');
  });
});

describe('a number that is no length', () => {
  const answer = { value: 62.8, within: 0.5 };
  it('is read with its unit or without, point or comma', () => {
    for (const typed of ['62.8', '62,8', '62.8 m/s', ' 63 ', '63.3°']) {
      expect(judgeNumber(typed, answer).verdict, typed).toBe('right');
    }
    expect(judgeNumber('63.4', answer).verdict).toBe('wrong');
    expect(judgeNumber('-62.8', answer).verdict).toBe('wrong');
  });

  it('is refused in one sentence when it can be read in two ways, or not at all', () => {
    expect(judgeNumber('1,200', { value: 1200, within: 1 })).toEqual({
      verdict: 'unread',
      because: 'The number could be 1200 or 1.200: use a point, or no comma.',
    });
    expect(judgeNumber('fast', answer).verdict).toBe('unread');
  });
});

describe('a question file', () => {
  const choice = (right: number) => ({
    id: 'one',
    kind: 'choice',
    ask: 'Which?',
    because: 'So.',
    options: [0, 1, 2].map((i) => ({ text: `${i}`, why: 'so', right: i < right })),
  });

  it.each([0, 2])('is refused with %i right options in a choice', (right) => {
    const read = QuestionFileSchema.safeParse({ questions: [choice(right)] });
    expect(read.error?.issues[0]?.message).toBe('must have exactly one right option');
  });

  it('is refused when an id is used twice', () => {
    const read = QuestionFileSchema.safeParse({ questions: [choice(1), choice(1)] });
    expect(read.error?.issues[0]?.message).toBe('uses the id one twice');
  });
});

describe('the shuffled order', () => {
  it.each([3, 4, 5, 6, 7, 8])(
    'of %i steps is never the right one, and holds each once',
    (count) => {
      for (const seed of ['a', 'order-of-work', 'stop', 'zz', 'q1']) {
        const order = shuffledOrder(count, seed);
        expect([...order].sort((a, b) => a - b)).toEqual(
          Array.from({ length: count }, (_, i) => i),
        );
        expect(judgeOrder(order).verdict).toBe('wrong');
      }
    },
  );
});
