import type { Site } from '../../accounts/index.ts';
import {
  answersInCourse,
  findDue,
  type LessonProgress,
  readCourse,
} from '../../assessment/review/index.ts';
import { type CoursePlace, loadCourse } from '../../components/lesson/load-course.ts';
import { answersOf, tasksBegun } from '../../learning/index.ts';
import type { Language } from '../../words/index.ts';

/** How far somebody is in the course: lessons and counts, and no single answer. */
export type LessonsRecord = {
  readonly rows: readonly { readonly lesson: CoursePlace; readonly progress: LessonProgress }[];
  /** questions due to go over again */
  readonly due: number;
  /** ISO instant the next one is due; null where none waits */
  readonly nextAt: string | null;
};

/** The lessons of one person's course: a trainer has their own besides the trainees'. */
export async function lessonsOf(
  site: Site,
  of: { readonly org: string; readonly person: string; readonly role: string },
  language: Language,
  now: string,
): Promise<LessonsRecord> {
  const course = await loadCourse(language);
  const all = await answersOf(site, of.person);
  const answers = answersInCourse(course, all);
  const tasks = await tasksBegun(site, of.org, of.person);
  const progress = readCourse(course, { answers, tasks });
  const { due, next } = findDue(answers, now);
  return {
    rows: course
      .filter(({ who }) => who === 'trainee' || who === of.role)
      .map((lesson) => ({ lesson, progress: progress.get(lesson.id) as LessonProgress })),
    due: due.length,
    nextAt: next?.dueAt ?? null,
  };
}
