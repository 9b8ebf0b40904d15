import { makeWordFinder } from '../components/lesson/find-words.ts';
import { isLanguage } from '../words/index.ts';
import { checkCourse } from './check-course.ts';
import { checkLinks } from './check-links.ts';
import { checkParts } from './check-parts.ts';
import { checkQuestions } from './check-questions.ts';
import { checkShape } from './check-shape.ts';
import { checkJobAid, checkTexts, checkWords, textsOf } from './check-texts.ts';
import { checkQuestionTranslation, checkTranslation } from './check-translation.ts';
import { type Course, type LessonCase, readHead } from './course.ts';
import { checkFacts } from './facts-source.ts';
import { type Flaw, note, problem } from './flaw.ts';
import { checkGlossary } from './glossary-source.ts';
import type { LessonSource } from './lesson-source.ts';
import { checkTypedFigures } from './typed-figures.ts';

/** Everything wrong with the content, by file and line. @param only the id of one lesson, with what it uses */
export function checkContent(course: Course, only?: string): readonly Flaw[] {
  const cases = course.lessons
    .filter(({ id }) => only === undefined || id === only)
    .map((lesson) => makeCase(lesson, course));
  const english = course.lessons.filter(({ language }) => language === 'en');
  const flaws = cases.flatMap((one) => checkLesson(one, course));
  const ordered = checkCourse(english);
  const used = new Set(cases.map(({ lesson }) => lesson.file));
  const all =
    only === undefined
      ? [...flaws, ...ordered, ...checkShared(course, cases)]
      : [...flaws, ...ordered.filter(({ file }) => used.has(file)), ...checkUsed(course, cases)];
  const seen = new Set<string>();
  return all
    .filter(({ file, line, says }) => {
      const key = `${file} ${line} ${says}`;
      return !seen.has(key) && seen.add(key);
    })
    .sort((a, b) => a.file.localeCompare(b.file) || a.line - b.line);
}

/** One lesson beside everything it may name. */
export function makeCase(lesson: LessonSource, course: Course): LessonCase {
  const head = readHead(lesson);
  const { known } = course;
  const language = isLanguage(lesson.language) ? lesson.language : 'en';
  const glossary = course.glossary.filter(
    (file) => file.language === 'en' || file.language === language,
  );
  // the words of the lesson's language stand before those not yet translated
  const words = [...glossary.filter((file) => file.language === language), ...glossary].flatMap(
    (file) => file.words,
  );
  return {
    lesson,
    head,
    bench: known.benches.get(head.bench),
    sets: head.rules.flatMap((name) => known.sets.get(name) ?? []),
    questions: course.questions.find(
      (bank) => bank.id === lesson.id && bank.language === lesson.language,
    ),
    words: new Set(words.map(({ id }) => id)),
    facts: new Map(course.facts.flatMap(({ facts }) => facts.map((fact) => [fact.id, fact]))),
    lessonIds: new Set(course.lessons.map(({ id }) => id)),
    findTerms: makeWordFinder(words, language),
    known,
  };
}

export function checkLesson(one: LessonCase, course: Course): readonly Flaw[] {
  const { lesson, head, known } = one;
  const inOwn = course.lessons.filter(({ language }) => language === lesson.language);
  const lost = (key: string, says: string) => problem(lesson.file, lesson.head.lineOf([key]), says);
  const named = [
    ...(one.bench === undefined
      ? [lost('bench', `There is no bench ${head.bench} in content/benches.`)]
      : []),
    ...head.rules
      .filter((name) => !known.sets.has(name))
      .map((name) =>
        lost(
          'rules',
          `There is no limit set ${name}; there are ${[...known.sets.keys()].join(', ')}.`,
        ),
      ),
  ];
  const translated =
    lesson.language === 'en'
      ? []
      : [
          ...checkTranslation(
            lesson,
            course.lessons.find(({ id, language }) => id === lesson.id && language === 'en'),
          ),
          ...checkQuestionTranslation(
            one,
            course.questions.find(({ id, language }) => id === lesson.id && language === 'en'),
          ),
        ];
  return [
    ...lesson.flaws,
    ...named,
    ...checkShape(one),
    ...checkParts(one),
    ...checkLinks(one, new Map(inOwn.map((other) => [other.id, other]))),
    ...checkQuestions(one),
    ...checkJobAid(one),
    ...checkTexts(one),
    ...checkTasks(one),
    ...translated,
  ];
}

/** The tasks a lesson sends to: their words are held to the same rules. */
function checkTasks(one: LessonCase): readonly Flaw[] {
  const { english, tasks } = one.known;
  if (one.lesson.language !== 'en' || english === null) return [];
  const ids = one.lesson.parts
    .filter(({ name }) => name === 'BenchTask')
    .map(({ attributes }) => String(attributes['id']));
  return ids.flatMap((id) => {
    const task = tasks.get(id);
    const file = `content/tasks/${id}.yaml`;
    return task === undefined
      ? []
      : [task.title, task.brief].flatMap((text) =>
          checkWords({ file, line: 1, text, lineAt: () => 1 }, one, english),
        );
  });
}

/** What belongs to no lesson: glossary, facts, files of questions without a lesson, words nobody uses. */
function checkShared(course: Course, cases: readonly LessonCase[]): readonly Flaw[] {
  const { glossary, facts, questions, lessons, known } = course;
  const languages = [...new Set(glossary.map(({ language }) => language))];
  const english = new Set(
    glossary
      .filter(({ language }) => language === 'en')
      .flatMap(({ words }) => words.map(({ id }) => id)),
  );
  const orphans = questions.filter(
    (bank) => !lessons.some(({ id, language }) => id === bank.id && language === bank.language),
  );
  return [
    ...languages.flatMap((language) => checkGlossary(glossary, language, english)),
    ...checkMeanings(course),
    ...checkFacts(facts),
    ...orphans.map(({ file, id }) => problem(file, 1, `No lesson ${id} places these questions.`)),
    ...findUnused(course, cases),
    ...(known.english === null
      ? [
          problem(
            'package.json',
            1,
            'The list of frequent words is not installed, so that trade words are not checked; run npm install.',
          ),
        ]
      : []),
  ];
}

/** With one lesson: the files of trade words and facts it draws on. */
function checkUsed(course: Course, cases: readonly LessonCase[]): readonly Flaw[] {
  const text = cases.flatMap((one) => textsOf(one).map(({ text }) => ({ one, text })));
  const ids = new Set(text.flatMap(({ one, text }) => one.findTerms(text).map(({ id }) => id)));
  const facts = JSON.stringify(
    cases.map(({ lesson, questions }) => [lesson.parts, questions?.questions]),
  );
  const files = new Set([
    ...course.glossary
      .filter(({ words, flaws }) => flaws.length > 0 || words.some(({ id }) => ids.has(id)))
      .map(({ file }) => file),
    ...course.facts
      .filter((one) => one.flaws.length > 0 || one.facts.some(({ id }) => facts.includes(id)))
      .map(({ file }) => file),
    'package.json',
  ]);
  return checkShared(course, cases).filter(
    ({ file, weight }) => files.has(file) && weight === 'problem',
  );
}

function checkMeanings({ glossary, known: { english } }: Course): readonly Flaw[] {
  const findTerms = makeWordFinder(
    glossary.filter((one) => one.language === 'en').flatMap((one) => one.words),
  );
  return glossary.flatMap(({ file, words, language }) =>
    words.flatMap(({ meaning, line }) => {
      const said = { file, line, text: meaning, lineAt: () => line };
      return [
        ...checkTypedFigures(said, said.lineAt),
        ...(english === null || language !== 'en' ? [] : checkWords(said, { findTerms }, english)),
      ];
    }),
  );
}

/** Words and facts no lesson uses, for their writers to know. */
function findUnused(course: Course, cases: readonly LessonCase[]): readonly Flaw[] {
  const english = cases.filter(({ lesson }) => lesson.language === 'en');
  const words = new Set(
    english.flatMap((one) => [
      ...textsOf(one).flatMap(({ text }) => one.findTerms(text).map(({ id }) => id)),
      ...one.lesson.parts
        .filter(({ name }) => name === 'Term')
        .map(({ attributes }) => String(attributes['id'])),
    ]),
  );
  const facts = JSON.stringify(
    english.map(({ lesson, questions }) => [lesson.parts, questions?.questions, lesson.head.value]),
  );
  return [
    ...course.glossary
      .filter(({ language }) => language === 'en')
      .flatMap(({ file, words: own }) =>
        own
          .filter(({ id }) => !words.has(id))
          .map(({ id, line }) => note(file, line, `${id}: no lesson uses this word.`)),
      ),
    ...course.facts.flatMap(({ file, facts: own }) =>
      own
        .filter(({ id }) => !facts.includes(id))
        .map(({ id, line }) => note(file, line, `${id}: no lesson uses this fact.`)),
    ),
  ];
}
