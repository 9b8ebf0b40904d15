import { describe, expect, it } from 'vitest';
import { isMeasureId, measureBench } from '../../src/bench/index.ts';
import { findFigure } from '../../src/components/lesson/figures.ts';
import { splitText, TYPED_FIGURE } from '../../src/components/lesson/fill-text.ts';
import { isDimensionId, PART_LABELS } from '../../src/drawing/index.ts';
import { BENCH_SCOPE } from '../../src/limits/index.ts';
import { loadBenches, loadLimitSets, loadTasks } from '../../src/store/content-files.ts';
import {
  LESSON_IDS,
  proseOf,
  readLesson,
  readQuestions,
  readWords,
  sentencesOf,
} from './read-lesson.ts';
import { readingAge, wordsOf } from './reading-age.ts';

const limitIds = new Set(
  [...loadLimitSets().values()].flatMap((set) => set.limits.map((one) => one.id)),
);
const words = readWords();

it('finds the lessons', () => {
  expect(LESSON_IDS).toContain('riving-knife');
});

describe.each(LESSON_IDS)('lesson %s', (id) => {
  const { head, body, parts } = readLesson(id);
  const prose = proseOf(body);
  const questions = readQuestions(id);
  const bench = loadBenches().get(head.bench);
  const named = (name: string) => parts.filter((part) => part.name === name);

  it('names a bench and limit sets that are there', () => {
    expect(bench).toBeDefined();
    expect(head.rules.filter((set) => !loadLimitSets().has(set))).toEqual([]);
  });

  it('has 700 to 1,300 words', () => {
    const count = wordsOf(prose).length;
    expect(count).toBeGreaterThanOrEqual(700);
    expect(count).toBeLessThanOrEqual(1300);
  });

  it('can be read at the age of twelve', () => {
    expect(readingAge(sentencesOf(body))).toBeLessThanOrEqual(12);
  });

  it('imports nothing', () => {
    expect(body).not.toMatch(/^\s*(import|export)\s/m);
  });

  it('uses only the parts a lesson has', () => {
    const known = [
      'BenchTask',
      'Caution',
      'Drawing',
      'Figure',
      'Limit',
      'LimitTable',
      'Question',
      'Term',
    ];
    expect(parts.map((part) => part.name).filter((name) => !known.includes(name))).toEqual([]);
  });

  it('shows only figures its bench has', () => {
    const lost = named('Figure')
      .map((part) => String(part.attributes['of']))
      .filter((of) => {
        try {
          findFigure(bench as NonNullable<typeof bench>, of);
          return false;
        } catch {
          return true;
        }
      });
    expect(named('Figure').length).toBeGreaterThan(10);
    expect(lost).toEqual([]);
  });

  it('names only limits, words, tasks and questions that are there', () => {
    const lost = parts.filter(({ name, attributes }) => {
      const id = String(attributes['id']);
      if (name === 'Limit') return !limitIds.has(id);
      if (name === 'Term') return !words.has(id);
      if (name === 'BenchTask') return !loadTasks().has(id);
      if (name === 'Question') return !questions.some((one) => one.id === id);
      return false;
    });
    expect(lost).toEqual([]);
    expect(named('Term').length).toBeGreaterThan(5);
    expect(named('Limit').length).toBeGreaterThan(0);
  });

  it('explains a trade word once, where it first stands', () => {
    const used = named('Term').map((part) => part.attributes['id']);
    expect(used.filter((term, i) => used.indexOf(term) !== i)).toEqual([]);
  });

  it('types no figure with a unit', () => {
    const typed = [prose, ...head.jobAid.steps].flatMap((text) =>
      text.split('\n').filter((line) => TYPED_FIGURE.test(line)),
    );
    expect(typed).toEqual([]);
  });

  it('has at least three drawings, each with its name, its description and a caption', () => {
    const drawings = named('Drawing');
    expect(drawings.length).toBeGreaterThanOrEqual(3);
    for (const { attributes } of drawings) {
      expect(String(attributes['title']).length).toBeGreaterThan(10);
      expect(String(attributes['alt']).length).toBeGreaterThan(60);
    }
    const captions = [...body.matchAll(/<Drawing[\s\S]*?\n>\n([\s\S]*?)<\/Drawing>/g)];
    expect(captions.length).toBe(drawings.length);
    for (const [, caption = ''] of captions) expect(caption.trim().length).toBeGreaterThan(20);
  });

  it('draws only dimensions and parts the drawings know', () => {
    for (const { attributes } of named('Drawing')) {
      const dimensions = (attributes['dimensions'] ?? []) as string[];
      const labels = Object.keys((attributes['labels'] ?? {}) as object);
      expect(dimensions.filter((one) => !isDimensionId(one))).toEqual([]);
      expect(labels.filter((one) => !(PART_LABELS as readonly string[]).includes(one))).toEqual([]);
    }
  });

  it('sends the reader to a bench, the rules and a caution', () => {
    expect(named('BenchTask').length).toBeGreaterThan(0);
    expect(named('Caution').length).toBeGreaterThan(0);
    const measures = named('LimitTable').flatMap((part) => part.attributes['measures'] as string[]);
    expect(measures.length).toBeGreaterThan(5);
    expect(measures.filter((one) => BENCH_SCOPE.find(one) === null)).toEqual([]);
    expect(head.jobAid.measures.filter((one) => !isMeasureId(one))).toEqual([]);
  });

  it('asks every question of its file, and fills in each figure of it', () => {
    expect(named('Question').map((part) => part.attributes['id'])).toEqual(
      questions.map((one) => one.id),
    );
    const text = JSON.stringify(questions);
    expect(TYPED_FIGURE.test(text)).toBe(false);
    for (const part of splitText(text.replace(/^\[\{|"?\}\]?$/g, ''))) {
      if (part.kind === 'figure')
        expect(findFigure(bench as never, part.of).value).toBeTypeOf('number');
    }
  });
});

describe('figures of a lesson', () => {
  const bench = loadBenches().get('lesson-bench') as NonNullable<
    ReturnType<ReturnType<typeof loadBenches>['get']>
  >;

  it('come from the engine', () => {
    expect(findFigure(bench, 'knife.gapMax')).toEqual({
      value: measureBench(bench)['knife.gapMax'],
      unit: 'mm',
    });
    expect(findFigure(bench, 'blade.kerf')).toEqual({ value: bench.blade.kerf, unit: 'mm' });
    expect(findFigure(bench, 'arbor.runDown').unit).toBe('s');
  });

  it.each(['knife.gapp', 'place.floor', 'guard.kind', 'controls.stopReach', 'guard.coversGullets'])(
    'refuse %s, which is no length a sentence can show',
    (id) => {
      expect(() => findFigure(bench, id)).toThrow(/figure/);
    },
  );

  it('refuse a part that has been taken off', () => {
    expect(() => findFigure({ ...bench, knife: null }, 'knife.gapMax')).toThrow('no number');
  });
});

describe('a typed figure', () => {
  it.each([
    'set it to 8 mm',
    'leave 3.5mm',
    'at most 1/4 in.',
    'a 2 inch gap',
    '62 m/s',
    'in 10 seconds',
    '5/16"',
  ])('is found in "%s"', (text) => expect(TYPED_FIGURE.test(text)).toBe(true));
  it.each(['three things', 'step 2 in the list', 'EN 1870-1', 'in 1974 it was'])(
    'is not found in "%s"',
    (text) => expect(TYPED_FIGURE.test(text)).toBe(false),
  );
});

describe('the glossary', () => {
  it('holds at least thirty words', () => {
    expect(words.size).toBeGreaterThanOrEqual(30);
  });

  it('explains each word in at most two plain sentences', () => {
    const long = [...words.values()].filter(
      ({ meaning }) => (meaning.match(/[.!?](\s|$)/g)?.length ?? 0) > 2,
    );
    const hard = [...words.values()].filter(({ meaning }) => readingAge(meaning) > 15);
    expect(long.map((one) => one.id)).toEqual([]);
    expect(hard.map((one) => one.id)).toEqual([]);
  });
});
