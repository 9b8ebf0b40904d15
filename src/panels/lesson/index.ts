import { learnSheets } from '../../words/spoken.ts';
import { startAnswering } from './answering.ts';
import { carryOver, exchange, writeAnswer, writeTask } from './book/index.ts';
import { showWaiting, startCourseList } from './course-list.ts';
import { startRules } from './rules.ts';
import { showLessonScore } from './score.ts';
import { startTerms } from './terms.ts';
import { startUnowned } from './unowned.ts';

/** Browser code of the lesson pages. Everything on them can be read without it. */
export function startLesson(): void {
  startTerms();
  startRules();
  const lesson = document.querySelector<HTMLElement>('[data-lesson]');
  const id = lesson?.dataset['lesson'];
  if (lesson === null || id === undefined) return;
  startTasks(lesson);
  void keepUp(() => {
    startAnswering(lesson, (question, verdict) => writeAnswer(id, question, verdict === 'right'));
    const show = (): void => {
      showLessonScore(lesson, id);
      showWaiting();
    };
    show();
    document.addEventListener('learnt', show);
  });
}

/** Going to the bench of a lesson counts as having opened its task. */
function startTasks(lesson: HTMLElement): void {
  for (const link of lesson.querySelectorAll<HTMLAnchorElement>('.bench-task a[href*="/bench/"]')) {
    link.addEventListener('click', () => writeTask(link.pathname.split('/').at(-1) ?? ''));
  }
}

/** Takes over what is old, shows what is known, then asks the site what is new. */
export async function keepUp(show: () => void): Promise<void> {
  await learnSheets('progress', 'lesson-panel');
  carryOver();
  show();
  startUnowned();
  await exchange();
}

/** The list of lessons with its map. */
export function startCourse(): void {
  void keepUp(startCourseList);
}

/** A page that only asks whose answers these are, and exchanges them: the first one after signing in. */
export function startKeeping(): void {
  void keepUp(() => {});
}

export function startJobAid(): void {
  startRules();
  document.querySelector('[data-print]')?.addEventListener('click', () => print());
}
