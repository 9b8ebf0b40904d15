import { resolve } from 'node:path';
import { loadKnown } from '../../src/cli/read-course.ts';
import { LessonSchema } from '../../src/components/lesson/lesson-schema.ts';
import {
  type Course,
  checkContent,
  type Known,
  readFactsSource,
  readGlossarySource,
  readLessonSource,
  readQuestionsSource,
} from '../../src/content-check/index.ts';

/** A small course with nothing wrong in it, for a test to break one thing of. */
export type Texts = {
  readonly lesson: string;
  readonly questions: string;
  readonly glossary: string;
  readonly facts: string;
  readonly german?: { readonly lesson: string; readonly questions: string };
};

const shipped = loadKnown(resolve(import.meta.dirname, '../..'));
const [task] = shipped.tasks.values();
const known: Known = {
  ...shipped,
  tasks: new Map(
    task && [['try-it', { ...task, id: 'try-it', title: 'Try it', brief: 'Look at it well.' }]],
  ),
};

const PARAGRAPH =
  'The blade turns and the wood comes to it along the fence. Stand to one side and hold the wood flat on the table. ' +
  'Keep both hands away from the teeth. Stop when the cut does not feel right, and look before you go on. ' +
  'A calm cut is a safe cut, and a safe cut is a good cut. Nobody needs to rush at a saw.\n\n';

const picture = (view: string, words: string) => `<Drawing
  view="${view}"
  title="The bench of this lesson, ${view} view"
  alt="The blade stands above the table and the wood lies flat before it. Behind the teeth stands a thin steel plate, ${words}."
>
  Look at the place where the teeth meet the wood, ${words}.
</Drawing>

`;

const HEAD_LATER = ['after: []', 'who: trainee'].filter((line) =>
  Object.hasOwn(LessonSchema.shape, line.split(':')[0] as string),
);

const LESSON = `---
title: A calm cut
about: How to stand and what to watch while the blade turns.
order: 1
minutes: 20
${HEAD_LATER.map((line) => `${line}\n`).join('')}bench: lesson-bench
rules: [gb, eu]
jobAid:
  title: Before each cut
  steps:
    - Look at the blade and the table.
    - Stand to one side of the cut.
    - Stop when it does not feel right.
  measures:
    - knife.gapAtTable
  drawing:
    view: side
    title: The bench set for a calm cut
    alt: The blade stands in the table with the knife close behind its rear teeth and the guard low over the wood.
---

## What you will be able to do

${PARAGRAPH}
## How to stand

${PARAGRAPH.repeat(8)}
The teeth run at <Figure of="blade.rimSpeed" />, and a rule asks for <Limit id="gb.knife.gap" />. See [how to stand](#how-to-stand), the [limits](/limits) and the <Term id="kerf">slot</Term>.

About <Fact id="of-ten" /> of ten do it well.

${picture('side', 'close to them')}${picture('end', 'in line with them')}${picture('knife', 'as high as they are')}
<Caution kind="warning" word="Stop first">
  Never reach over a blade that turns, not even when it runs down.
</Caution>

## A worked example

${PARAGRAPH}
## Common mistakes

${PARAGRAPH}
## What the rules say here

<LimitTable measures={['knife.gapAtTable', 'knife.gapMin']} />

## Try it

<BenchTask id="try-it" />

## Questions

<Question id="one" />
<Questions />
`;

const BECAUSE =
  'because: Look at the blade first. Then look at the wood, and then at your own hands.';
const options = (right: number) =>
  ['Stand to one side of it.', 'Stand right behind the cut.', 'Stand on the other side.']
    .map(
      (text, i) =>
        `      - text: ${text}\n        why: This is what the wood does there, ${i + 1}.\n${i === right ? '        right: true\n' : ''}`,
    )
    .join('');
const choice = (id: string, right: number) =>
  `  - id: ${id}\n    kind: choice\n    ask: Where do you stand in a cut?\n    options:\n${options(right)}    ${BECAUSE}\n`;
const steps = ['Stop the saw.', 'Lock it off.', 'Look at it.']
  .map((text) => `      - text: ${text}\n        why: The next thing waits for this one.\n`)
  .join('');

const QUESTIONS = `questions:
${['one', 'two', 'three', 'four', 'five', 'six'].map((id, i) => choice(id, i % 3)).join('')}${[
  'seven',
  'eight',
]
  .map((id) => choice(id, 0).replace('kind: choice', 'kind: several'))
  .join('')}${['nine', 'ten']
  .map(
    (id) =>
      `  - id: ${id}\n    kind: order\n    ask: What do you do first?\n    steps:\n${steps}    ${BECAUSE}\n`,
  )
  .join('')}${['eleven', 'twelve']
  .map(
    (id) =>
      `  - id: ${id}\n    kind: number\n    ask: The cut is {blade.kerf} wide. How much is left?\n    answer: knife.underKerf\n    within: 0.05\n    ${BECAUSE}\n`,
  )
  .join('')}`;

const GLOSSARY = `words:
  kerf:
    term: kerf
    meaning: The slot the blade cuts in the wood.
    also: [width of cut]
    see: [plate]
  plate:
    term: plate
    meaning: The flat body of the blade, without its teeth. It must not rub in the {kerf}.
    link: by hand
`.replace('{kerf}', 'kerf');

const FACTS = `facts:
  of-ten:
    value: 9
    says: How many of ten do it well.
    source: { title: A count in one shop, year: 2020, seen: primary }
`;

export const SOUND: Texts = {
  lesson: LESSON,
  questions: QUESTIONS,
  glossary: GLOSSARY,
  facts: FACTS,
};

export const FILES = {
  lesson: 'content/lessons/en/calm-cut.mdx',
  questions: 'content/questions/en/calm-cut.yaml',
  glossary: 'content/glossary/en/words.yaml',
  facts: 'content/facts/counts.yaml',
} as const;

export function courseOf(texts: Texts): Course {
  const at = (language: string) => ({ id: 'calm-cut', language });
  const german = texts.german;
  return {
    lessons: [
      readLessonSource({ ...at('en'), file: FILES.lesson }, texts.lesson),
      ...(german === undefined
        ? []
        : [
            readLessonSource(
              { ...at('de'), file: 'content/lessons/de/calm-cut.mdx' },
              german.lesson,
            ),
          ]),
    ],
    questions: [
      readQuestionsSource({ ...at('en'), file: FILES.questions }, texts.questions),
      ...(german === undefined
        ? []
        : [
            readQuestionsSource(
              { ...at('de'), file: 'content/questions/de/calm-cut.yaml' },
              german.questions,
            ),
          ]),
    ],
    glossary: [readGlossarySource({ language: 'en', file: FILES.glossary }, texts.glossary)],
    facts: [readFactsSource(FILES.facts, texts.facts)],
    known,
  };
}

/** What the check says of one lesson, as `file:line: what`. */
export const problemsOf = (texts: Texts): string[] =>
  checkContent(courseOf(texts), 'calm-cut').map(
    ({ file, line, says }) => `${file}:${line}: ${says}`,
  );

/** All it says, the course as a whole included. */
export const flawsOf = (texts: Texts) => checkContent(courseOf(texts));
