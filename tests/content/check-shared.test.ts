import { describe, expect, it } from 'vitest';
import {
  checkContent,
  readFactsSource,
  readQuestionsSource,
} from '../../src/content-check/index.ts';
import { courseOf, problemsOf, SOUND } from './sound-course.ts';

const course = courseOf(SOUND);
const saidOf = (change: Partial<typeof course>) =>
  checkContent({ ...course, ...change }).map(({ file, says }) => `${file}: ${says}`);

const swap = (text: string, from: string, to: string): string => {
  if (!text.includes(from)) throw new Error(`Nothing was changed: ${from}`);
  return text.replace(from, to);
};

describe('over the whole content the check finds', () => {
  it('questions of no lesson', () => {
    const stray = readQuestionsSource(
      { id: 'stray', language: 'en', file: 'stray.yaml' },
      SOUND.questions,
    );
    expect(saidOf({ questions: [...course.questions, stray] })).toContain(
      'stray.yaml: No lesson stray places these questions.',
    );
  });

  it('a lesson without questions', () => {
    expect(saidOf({ questions: [] }).join()).toContain(
      'The lesson has no questions; write content/questions/en/calm-cut.yaml.',
    );
  });

  it('one fact in two files', () => {
    const again = readFactsSource('again.yaml', SOUND.facts);
    expect(saidOf({ facts: [...course.facts, again] })).toContain(
      'again.yaml: of-ten: already a fact of content/facts/counts.yaml.',
    );
  });

  it('an undefined trade word in a task a lesson sends to', () => {
    const [task] = course.known.tasks.values();
    if (task === undefined) throw new Error('There is no task.');
    const tasks = new Map([['try-it', { ...task, brief: 'Mind the scantling.' }]]);
    expect(saidOf({ known: { ...course.known, tasks } }).join()).toContain(
      'content/tasks/try-it.yaml: "scantling" is not explained',
    );
  });

  it('that the list of frequent words is not installed', () => {
    expect(saidOf({ known: { ...course.known, english: null } }).join()).toContain(
      'package.json: The list of frequent words is not installed',
    );
  });
});

describe('a figure known from memory', () => {
  const questions = swap(SOUND.questions, '{blade.kerf}', '{fact:of-ten}');
  const facts = swap(SOUND.facts, 'seen: primary', 'seen: memory');
  const lesson = swap(SOUND.lesson, 'About <Fact', 'From memory, <Fact');

  it('must be told so in a question', () => {
    expect(problemsOf({ ...SOUND, lesson, questions, facts })).toEqual([
      expect.stringContaining('the text must say "from memory"'),
    ]);
    const told = swap(
      questions,
      'The cut is {fact:of-ten}',
      'From memory the cut is {fact:of-ten}',
    );
    expect(problemsOf({ ...SOUND, lesson, questions: told, facts })).toEqual([]);
  });

  it('must be told so under a plot', () => {
    const [limit] = [...course.known.sets.values()].flatMap(({ limits }) =>
      limits.filter(({ source }) => source.seen === 'memory'),
    );
    const plot = (caption: string) =>
      swap(
        SOUND.lesson,
        '<Questions />',
        `<Plot change="arbor.depth" from={1} to={2} of={['blade.projection']} limits={['${limit?.id}']} title="The blade and its height" alt="The lower the spindle lies under the table, the less of the blade stands above it." >\n  ${caption}\n</Plot>\n\n<Questions />`,
      );
    const said = (caption: string) =>
      problemsOf({ ...SOUND, lesson: plot(caption) }).filter((one) => one.includes('memory'));
    expect(said('Look where the line meets the other.')).toHaveLength(1);
    expect(said('The flat line is from memory. Look where the two meet.')).toEqual([]);
  });
});

describe('of one kind of question alone the check finds', () => {
  const asked = (kind: string) => {
    const questions = `${SOUND.questions}  - id: last\n${kind}    ask: Where does it stand?\n    because: Look at the blade first. Then look at the wood, and then at your hands.\n`;
    return problemsOf({ ...SOUND, questions }).filter((one) => one.includes(': last: '));
  };
  const drawing = (view: string) =>
    `    kind: mark\n    drawing: { view: ${view}, title: The bench of this lesson, alt: The blade stands above the table and the wood lies flat before it with a thin plate behind. }\n`;

  it('a match with one right side twice', () => {
    const pair = (left: string) =>
      `      - left: ${left}\n        right: This one.\n        why: It is a thing to think of.\n`;
    expect(
      asked(`    kind: match\n    pairs:\n${pair('One')}${pair('Two')}${pair('Three')}`),
    ).toEqual([expect.stringContaining('two pairs have the same right side')]);
  });

  it.each([
    [
      'without a drawing',
      '    kind: mark\n    target: { part: knife }\n',
      'a mark needs a drawing',
    ],
    ['without a target', drawing('side'), 'target must be one of'],
    [
      'with a target nobody knows',
      `${drawing('side')}    target: { part: motor }\n`,
      'no part is named motor',
    ],
    [
      'with a target not to be seen',
      `${drawing('knife')}    target: { part: guard }\n`,
      'guard is not to be seen in the view knife',
    ],
    [
      'with a dimension not to be seen',
      `${drawing('end')}    target: { dimension: knife.gapAtTable }\n`,
      'knife.gapAtTable cannot be shown',
    ],
    ['with a view that is none', `${drawing('back')}    target: { part: knife }\n`, 'view must be'],
  ])('a mark %s', (_what, kind, says) => {
    expect(asked(kind).join()).toContain(says);
  });

  it('nothing wrong with a mark on a part that is to be seen', () => {
    expect(asked(`${drawing('side')}    target: { part: knife }\n`)).toEqual([]);
  });
});

it('finds a view of the job aid’s drawing that is none', () => {
  const lesson = swap(SOUND.lesson, 'drawing:\n    view: side', 'drawing:\n    view: back');
  expect(problemsOf({ ...SOUND, lesson }).join()).toContain('Job aid: drawing: view must be');
});

it.each([
  ['a plot that is ready', 'show="run-down"'],
  ['a plot over a field', `change="arbor.depth" from={40} to={120} of={['blade.projection']}`],
  ['a plot of a sum', `change="blade.kerf" from={2} to={4} of={['blade.kerf - knife.thickness']}`],
])('finds nothing wrong with %s', (_what, shown) => {
  const lesson = swap(
    SOUND.lesson,
    '<Questions />',
    `<Plot ${shown} title="The blade and its height" alt="The lower the spindle lies under the table, the less of the blade stands above it." >\n  Look where the line begins to fall.\n</Plot>\n\n<Questions />`,
  );
  expect(problemsOf({ ...SOUND, lesson }).filter((one) => one.includes('Plot'))).toEqual([]);
});
