import type { LessonCase } from './course.ts';
import { type Flaw, problem } from './flaw.ts';
import type { LessonSource } from './lesson-source.ts';
import { readingAge, wordsOf } from './reading-age.ts';

/** What every lesson has, so that a reader finds the same things in the same places. */
export const HEADINGS = [
  'What you will be able to do',
  'A worked example',
  'Common mistakes',
  'What the rules say here',
  'Try it',
  'Questions',
];
const FEWEST_WORDS = 700;
const MOST_WORDS = 1300;
const FEWEST_PICTURES = 3;
/** A bar of 12, and what two careful counts of the same text may differ by. */
export const OLDEST_READER = 12.4;

/** The text a reader reads, one line for each block; a figure counts as one short word. */
export function proseOf({ blocks }: LessonSource): string {
  return blocks
    .filter(({ kind }) => kind !== 'heading')
    .map(({ kind, text }) => {
      const said = text
        .replace(/\uFFFC/g, 'ten')
        .replace(/\s+/g, ' ')
        .trim();
      // a list that is one long sentence is read as one
      if (kind === 'item') return /[.!?;:,]$/.test(said) ? said : `${said}.`;
      return /[.!?]$/.test(said) ? `${said}\n` : `${said}\n\n`;
    })
    .join('\n');
}

/** Length, headings, pictures, cautions: the outline of a lesson. */
export function checkShape({ lesson }: LessonCase): readonly Flaw[] {
  const say = (says: string, line = 1) => problem(lesson.file, line, says);
  const count = (...names: string[]) =>
    lesson.parts.filter(({ name }) => names.includes(name)).length;
  const flaws: Flaw[] = [];
  const prose = proseOf(lesson);
  const headings = lesson.blocks.filter(({ kind }) => kind === 'heading');
  const words =
    wordsOf(prose).length + headings.reduce((sum, { text }) => sum + wordsOf(text).length, 0);
  if (words < FEWEST_WORDS || words > MOST_WORDS)
    flaws.push(say(`The lesson has ${words} words; ${FEWEST_WORDS} to ${MOST_WORDS}.`));
  const age = readingAge(prose);
  if (words > 0 && age > OLDEST_READER)
    flaws.push(
      say(
        `The lesson reads at the age of ${age.toFixed(1)}; at most ${OLDEST_READER}. Shorter sentences, shorter words.`,
      ),
    );
  const pictures = count('Drawing', 'Plot');
  if (pictures < FEWEST_PICTURES)
    flaws.push(say(`The lesson has ${pictures} drawings and plots; at least ${FEWEST_PICTURES}.`));
  if (count('BenchTask') === 0)
    flaws.push(say('The lesson has no BenchTask; at least one under "Try it".'));
  if (count('Caution') === 0) flaws.push(say('The lesson has no Caution; at least one.'));
  if (count('LimitTable') !== 1)
    flaws.push(
      say(
        `The lesson has ${count('LimitTable')} LimitTables; exactly one, under "What the rules say here".`,
      ),
    );
  if (count('Figure') + count('Fact') === 0)
    flaws.push(say('The lesson shows no figure of its bench.'));
  if (lesson.language === 'en') flaws.push(...checkHeadings(lesson));
  return flaws;
}

function checkHeadings(lesson: LessonSource): readonly Flaw[] {
  const headings = lesson.blocks.filter(({ kind }) => kind === 'heading');
  const second = headings.filter(({ depth }) => depth === 2).map(({ text }) => text.trim());
  const first = headings.filter(({ depth }) => depth === 1);
  const places = HEADINGS.map((heading) => second.indexOf(heading));
  return [
    ...HEADINGS.filter((_heading, i) => places[i] === -1).map((heading) =>
      problem(lesson.file, 1, `The heading "## ${heading}" is missing.`),
    ),
    ...first.map((one) =>
      problem(
        lesson.file,
        one.lineAt(0),
        'The title is the only heading of the first rank; write ##.',
      ),
    ),
    ...headings
      .filter((one, i) => one.depth > 1 + (headings[i - 1]?.depth ?? 1))
      .map((one) =>
        problem(
          lesson.file,
          one.lineAt(0),
          `"${one.text}" skips a rank of heading; write one # less.`,
        ),
      ),
    ...headings
      .filter((one, i) => headings.findIndex(({ text }) => text === one.text) !== i)
      .map((one) =>
        problem(lesson.file, one.lineAt(0), `The heading "${one.text}" is used twice.`),
      ),
  ];
}
