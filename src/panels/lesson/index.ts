import { startOrders } from './order.ts';
import { startQuestions } from './questions.ts';
import { startRules } from './rules.ts';
import { showLessonScore, showListScores } from './score.ts';
import { startTerms } from './terms.ts';

/** Browser code of the lesson pages. Everything on them can be read without it. */
export function startLesson(): void {
  startTerms();
  startRules();
  startOrders();
  const lesson = document.querySelector<HTMLElement>('[data-lesson]');
  const id = lesson?.dataset['lesson'];
  if (lesson === null || id === undefined) return;
  startQuestions(lesson, id);
  showLessonScore(lesson, id);
}

export function showScores(): void {
  showListScores();
}

export function startJobAid(): void {
  startRules();
  document.querySelector('[data-print]')?.addEventListener('click', () => print());
}
