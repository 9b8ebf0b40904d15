import { type CollectionEntry, getCollection, getEntry } from 'astro:content';
import { measureBench } from '../../bench/index.ts';
import { loadBenches, loadLimitSets } from '../../store/content-files.ts';
import { LANGUAGE_IDS, type Language, languageOfPath } from '../../words/index.ts';
import { askedOrder, placedIn } from './asked-order.ts';
import { joinFacts } from './facts.ts';
import { joinWords } from './join-words.ts';
import type { LessonContext } from './lesson-context.ts';
import type { Fact, GlossaryWord, LessonHead, Question } from './lesson-schema.ts';

/** A lesson in one language. `id` is the same in each. */
export type Lesson = {
  readonly id: string;
  readonly language: Language;
  readonly head: LessonHead;
  readonly entry: CollectionEntry<'lessons'>;
};

const isIn = (language: Language) => (entry: { readonly id: string }) =>
  entry.id.startsWith(`${language}/`);

/** Every lesson in course order: in the language where it is translated, else in English. */
export async function loadLessons(language: Language = 'en'): Promise<Lesson[]> {
  const entries = await getCollection('lessons');
  const read = (tongue: Language) =>
    entries.filter(isIn(tongue)).map((entry): Lesson => {
      const id = entry.id.slice(tongue.length + 1);
      return { id, language: tongue, head: entry.data, entry };
    });
  const byId = new Map([...read('en'), ...read(language)].map((lesson) => [lesson.id, lesson]));
  return [...byId.values()].sort((a, b) => a.head.order - b.head.order);
}

/** Every trade word by its id. A word not yet translated stands in English. */
export async function loadWords(
  language: Language = 'en',
): Promise<ReadonlyMap<string, GlossaryWord>> {
  const files = await getCollection('glossary');
  const english = joinWords(
    files.filter(isIn('en')).map((file) => file.data),
    'en',
  );
  if (language === 'en') return english;
  const own = joinWords(
    files.filter(isIn(language)).map((file) => file.data),
    language,
  );
  return new Map([...english, ...own]);
}

/** Every published number that is no limit, by its id. */
export async function loadFacts(): Promise<ReadonlyMap<string, Fact>> {
  return joinFacts((await getCollection('facts')).map((file) => file.data));
}

export async function loadQuestions(
  lessonId: string,
  language: Language = 'en',
): Promise<readonly Question[]> {
  const file = await getEntry('questions', `${language}/${lessonId}`);
  return file?.data.questions ?? [];
}

/** Bench, limit sets and words of one lesson. @throws when the lesson names one that is not there */
export async function loadContext({ id, language, head, entry }: Lesson): Promise<LessonContext> {
  const bench = loadBenches().get(head.bench);
  if (bench === undefined) throw new Error(`Lesson ${id}: no bench is named ${head.bench}.`);
  const sets = loadLimitSets();
  const rules = head.rules.map((name) => {
    const set = sets.get(name);
    if (set === undefined) throw new Error(`Lesson ${id}: no limit set is named ${name}.`);
    return set;
  });
  return {
    id,
    language,
    head,
    bench,
    measures: measureBench(bench),
    rules,
    words: await loadWords(language),
    facts: await loadFacts(),
    placed: placedIn(entry.body ?? ''),
    asked: askedOrder(
      entry.body ?? '',
      (await loadQuestions(id, language)).map((one) => one.id),
    ),
    sheet: 'lesson',
  };
}

/** The languages a lesson is written in. */
export async function languagesOf(id: string): Promise<Language[]> {
  const entries = new Set((await getCollection('lessons')).map((entry) => entry.id));
  return LANGUAGE_IDS.filter((language) => entries.has(`${language}/${id}`));
}

/** The pages of every lesson, for one language: the address says which. */
export async function lessonPaths(route: string) {
  const language = languageOfPath(route);
  const lessons = await loadLessons(language);
  const own = lessons.filter((lesson) => lesson.language === language);
  return own.map((lesson) => ({ params: { lesson: lesson.id }, props: { lesson } }));
}
