import { type CollectionEntry, getCollection, getEntry } from 'astro:content';
import { measureBench } from '../../bench/index.ts';
import { loadBenches, loadLimitSets } from '../../store/content-files.ts';
import { joinWords } from './join-words.ts';
import type { LessonContext } from './lesson-context.ts';
import type { GlossaryWord, Question } from './lesson-schema.ts';

/** Every lesson in course order. */
export async function loadLessons(): Promise<CollectionEntry<'lessons'>[]> {
  const lessons = await getCollection('lessons');
  return lessons.sort((a, b) => a.data.order - b.data.order);
}

/** Every trade word by its id. */
export async function loadWords(): Promise<ReadonlyMap<string, GlossaryWord>> {
  const files = await getCollection('glossary');
  return joinWords(files.map((file) => file.data));
}

export async function loadQuestions(lessonId: string): Promise<readonly Question[]> {
  const file = await getEntry('questions', lessonId);
  return file?.data.questions ?? [];
}

/** Bench, limit sets and words of one lesson. @throws when the lesson names one that is not there */
export async function loadContext({
  id,
  data: head,
}: CollectionEntry<'lessons'>): Promise<LessonContext> {
  const bench = loadBenches().get(head.bench);
  if (bench === undefined) throw new Error(`Lesson ${id}: no bench is named ${head.bench}.`);
  const sets = loadLimitSets();
  const rules = head.rules.map((name) => {
    const set = sets.get(name);
    if (set === undefined) throw new Error(`Lesson ${id}: no limit set is named ${name}.`);
    return set;
  });
  return { id, head, bench, measures: measureBench(bench), rules, words: await loadWords() };
}
