import type { CourseLesson } from '../../assessment/review/index.ts';
import type { Language } from '../../words/index.ts';
import { loadLessons, loadQuestions } from './load-lesson.ts';
import { tasksIn } from './tasks-in.ts';

/** A lesson's place in the course, with what the course map says of it. */
export type CoursePlace = CourseLesson & {
  readonly title: string;
  readonly about: string;
  readonly minutes: number;
  readonly order: number;
  /** the language its page is written in */
  readonly language: Language;
};

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
