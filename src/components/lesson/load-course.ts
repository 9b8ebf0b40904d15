import type { CourseLesson } from '../../assessment/review/index.ts';
import type { Language } from '../../words/index.ts';
import { loadLessons, loadQuestions } from './load-lesson.ts';

/** A lesson's place in the course, with what the course map says of it. */
export type CoursePlace = CourseLesson & {
  readonly title: string;
  readonly about: string;
  readonly minutes: number;
  readonly order: number;
  /** the language its page is written in */
  readonly language: Language;
};

const TASK = /<BenchTask\b[^>]*\bid="([a-z0-9-]+)"/g;

/** Ids of the bench tasks a lesson's text leads to. */
export const tasksIn = (body: string): string[] => [
  ...new Set([...body.matchAll(TASK)].map((match) => match[1] as string)),
];

/** Every lesson of the course in its order. */
export async function loadCourse(language: Language = 'en'): Promise<readonly CoursePlace[]> {
  const lessons = await loadLessons(language);
  return Promise.all(
    lessons.map(async ({ id, head, entry, language: written }) => ({
      id,
      title: head.title,
      about: head.about,
      minutes: head.minutes,
      order: head.order,
      after: head.after,
      who: head.who,
      language: written,
      asks: (await loadQuestions(id)).map((question) => question.id),
      tasks: tasksIn(entry.body ?? ''),
    })),
  );
}
