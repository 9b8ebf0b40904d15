import type { LessonCase } from './course.ts';
import { type Flaw, problem } from './flaw.ts';
import type { LessonSource, Part } from './lesson-source.ts';
import type { QuestionsSource } from './questions-source.ts';

/** Fields of a part that say what is shown; the rest are words, and differ. */
const SAME = [
  'of',
  'id',
  'measures',
  'view',
  'crop',
  'dimensions',
  'bench',
  'show',
  'change',
  'from',
  'to',
  'limits',
  'digits',
];
const HEAD = ['order', 'minutes', 'after', 'who', 'bench', 'rules'];

const partKey = ({ name, attributes }: Part): string => {
  const labels = Object.keys((attributes['labels'] ?? {}) as object);
  const same = SAME.filter((key) => attributes[key] !== undefined).map((key) => [
    key,
    attributes[key],
  ]);
  return `${name} ${JSON.stringify([...same, labels])}`;
};

/** A word may stand elsewhere in another language's sentence, so parts are compared as a bag. */
function lostFrom(all: readonly string[], has: readonly string[]): readonly string[] {
  const left = [...has];
  return all.filter((one) => {
    const at = left.indexOf(one);
    if (at >= 0) left.splice(at, 1);
    return at < 0;
  });
}

/** A lesson in another language shows what the English one shows, in the same order of sections. */
export function checkTranslation(
  lesson: LessonSource,
  english: LessonSource | undefined,
): readonly Flaw[] {
  if (english === undefined)
    return [
      problem(
        lesson.file,
        1,
        `There is no English lesson ${lesson.id} that this could be the translation of.`,
      ),
    ];
  const say = (says: string, line = 1) => problem(lesson.file, line, says);
  const linked = ({ name }: Part) => name !== 'Term';
  const own = lesson.parts.filter(linked).map(partKey);
  const theirs = english.parts.filter(linked).map(partKey);
  const headings = (one: LessonSource) => one.blocks.filter(({ kind }) => kind === 'heading');
  const [ownHead, theirHead] = [lesson, english].map(
    (one) => (one.head.value ?? {}) as Record<string, unknown>,
  );
  const flaws = [
    ...lostFrom(theirs, own).map((key) =>
      say(`The English lesson shows ${key}, and this one does not.`),
    ),
    ...lostFrom(own, theirs).map((key) =>
      say(`This lesson shows ${key}, and the English one does not.`),
    ),
    ...HEAD.filter(
      (key) => JSON.stringify(ownHead?.[key]) !== JSON.stringify(theirHead?.[key]),
    ).map((key) => say(`${key} must be as in the English lesson.`, lesson.head.lineOf([key]))),
  ];
  const [count, wanted] = [headings(lesson), headings(english)];
  if (count.map(({ depth }) => depth).join() !== wanted.map(({ depth }) => depth).join())
    flaws.push(
      say(
        `The lesson has ${count.length} headings and the English one ${wanted.length}, or other ranks.`,
      ),
    );
  return flaws;
}

/** The same questions with the same answers; only words differ. */
export function checkQuestionTranslation(
  { questions }: Pick<LessonCase, 'questions'>,
  english: QuestionsSource | undefined,
): readonly Flaw[] {
  if (questions === undefined || english === undefined) return [];
  const byId = new Map(questions.questions.map((asked) => [asked.id, asked]));
  const known = new Set(english.questions.map(({ id }) => id));
  const same = ['kind', 'answer', 'within', 'bench', 'target'];
  return [
    ...english.questions.flatMap((wanted) => {
      const own = byId.get(wanted.id);
      if (own === undefined)
        return [problem(questions.file, 1, `The question ${wanted.id} is missing.`)];
      const keys = same.filter(
        (key) => JSON.stringify(own.fields[key]) !== JSON.stringify(wanted.fields[key]),
      );
      const rights = ({ answers }: typeof own) => answers.map(({ right }) => right).join();
      if (rights(own) !== rights(wanted)) keys.push('which answers are right');
      return keys.map((key) =>
        problem(questions.file, own.line, `${own.id}: ${key} must be as in the English file.`),
      );
    }),
    ...questions.questions
      .filter(({ id }) => !known.has(id))
      .map(({ id, line }) =>
        problem(questions.file, line, `${id}: there is no such question in the English file.`),
      ),
  ];
}
