import { describe, expect, it } from 'vitest';
import { checkContent, checkCourse, readLessonSource } from '../../src/content-check/index.ts';
import { courseOf, flawsOf, problemsOf, SOUND } from './sound-course.ts';

const lesson = (id: string, order: number | string, after: readonly string[] = []) =>
  readLessonSource(
    { id, language: 'en', file: `${id}.mdx` },
    `---\ntitle: ${id}\norder: ${order}\nafter: [${after.join(', ')}]\n---\n`,
  );
const saidOf = (...lessons: ReturnType<typeof lesson>[]) =>
  checkCourse(lessons).map(({ file, line, says }) => `${file}:${line}: ${says}`);

const whole = Array.from({ length: 15 }, (_, i) =>
  lesson(`l${i + 1}`, i + 1, i === 0 ? [] : [`l${i}`]),
);

describe('the course', () => {
  it('is in order with fifteen lessons, each after the one before', () => {
    expect(saidOf(...whole)).toEqual([]);
  });

  it('misses a lesson', () => {
    expect(saidOf(...whole.slice(0, 14))).toEqual([
      'content/lessons/en:1: No lesson has order 15; each of 1 to 15 is used once.',
    ]);
  });

  it('has two lessons in one place', () => {
    const said = saidOf(...whole.slice(0, 14), lesson('twin', 14));
    expect(said).toContain('twin.mdx:3: order 14 is that of l14 too.');
    expect(said).toContain('l14.mdx:3: order 14 is that of twin too.');
  });

  it.each([0, 16, 2.5, 'soon'])('has no place %s', (order) => {
    expect(saidOf(...whole, lesson('odd', order))).toContain(
      'odd.mdx:3: order must be a whole number from 1 to 15.',
    );
  });

  it('names a lesson to do first that is not there', () => {
    expect(saidOf(...whole.slice(0, 14), lesson('l15', 15, ['none']))).toEqual([
      'l15.mdx:4: after names none, and there is no such lesson.',
    ]);
  });

  it('names a lesson to do first that comes later', () => {
    const said = saidOf(lesson('l1', 1, ['l9']), ...whole.slice(1));
    expect(said).toContain(
      'l1.mdx:4: after names l9, which comes later in the course (9 after 1).',
    );
  });

  it('goes round in a circle', () => {
    const said = saidOf(lesson('l1', 1, ['l3']), ...whole.slice(1));
    expect(said).toContain('l1.mdx:4: after goes round in a circle: l1, l3, l2, l1.');
    expect(said.filter((one) => one.startsWith('l4'))).toEqual([]);
  });
});

const german = { lesson: SOUND.lesson, questions: SOUND.questions };
const inGerman = (change: Partial<typeof german>) => ({
  ...SOUND,
  german: { ...german, ...change },
});
const replaced = (text: string, from: string | RegExp, to: string): string => {
  if (text.replace(from, to) === text) throw new Error(`Nothing was changed: ${from}`);
  return text.replace(from, to);
};

describe('a translation', () => {
  it('that shows the same passes, whatever its words are', () => {
    const lesson = replaced(
      SOUND.lesson,
      /The blade turns and the wood comes/g,
      'Das Blatt schlingert, und das Holz kommt',
    );
    expect(problemsOf(inGerman({ lesson }))).toEqual([]);
  });

  const about = (change: Partial<typeof german>) =>
    problemsOf(inGerman(change))
      .filter((one) => /\/de\//.test(one))
      .join('\n');

  it.each([
    [
      'another figure',
      'blade.rimSpeed',
      'blade.projection',
      'This lesson shows Figure [["of","blade.projection"],[]]',
    ],
    ['no table of rules', /<LimitTable[^\n]*/, '', 'The English lesson shows LimitTable'],
    [
      'another place in the course',
      'order: 1',
      'order: 2',
      'order must be as in the English lesson',
    ],
    [
      'a heading less',
      '## How to stand',
      'How to stand',
      'The lesson has 6 headings and the English one 7',
    ],
    ['a typed figure', 'Nobody needs', 'Nur 8 mm. Nobody needs', '"8 mm" is a typed figure'],
    ['no description', /alt="[^"]*line with them\."/, 'alt=""', 'alt is missing'],
  ] as const)('is found out with %s', (_what, from, to, says) => {
    expect(about({ lesson: replaced(SOUND.lesson, from, to) })).toContain(says);
  });

  it.each([
    ['a question less', / {2}- id: twelve[\s\S]*/, '', 'The question twelve is missing'],
    [
      'a question of its own',
      '- id: twelve',
      '- id: thirteen',
      'thirteen: there is no such question',
    ],
    ['another kind', 'kind: several', 'kind: choice', 'seven: kind must be as in the English file'],
    [
      'another answer',
      'answer: knife.underKerf',
      'answer: knife.overPlate',
      'eleven: answer must be as in the English file',
    ],
    [
      'another right option',
      /(id: seven[\s\S]*?)\n {8}right: true([\s\S]*?)(\n {6}- text: Stand on)/,
      '$1$2\n        right: true$3',
      'seven: which answers are right must be as in the English file',
    ],
  ] as const)('is found out with %s', (_what, from, to, says) => {
    expect(about({ questions: replaced(SOUND.questions, from, to) })).toContain(says);
  });

  it('needs an English lesson', () => {
    const course = courseOf(inGerman({}));
    const lessons = course.lessons.filter(({ language }) => language === 'de');
    expect(checkContent({ ...course, lessons }, 'calm-cut').map(({ says }) => says)).toContain(
      'There is no English lesson calm-cut that this could be the translation of.',
    );
  });
});

it('says of the whole course which orders are free', () => {
  expect(flawsOf(SOUND).filter(({ says }) => says.startsWith('No lesson has order'))).toHaveLength(
    14,
  );
});
