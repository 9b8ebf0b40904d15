import english from '../../../content/messages/en/progress.json' with { type: 'json' };
import {
  answersInCourse,
  type CourseLesson,
  type Due,
  findDue,
  type LessonProgress,
  readCourse,
} from '../../assessment/review/index.ts';
import { dayIn } from '../../words/index.ts';
import { pageLanguage, sayFrom } from '../../words/spoken.ts';
import { readLearnt } from './book/index.ts';
import { sayScore } from './score.ts';

const say = sayFrom('progress', english);

const namesIn = (text: string | undefined): string[] => (text ?? '').split(' ').filter(Boolean);
const whoOf = (text: string | undefined): CourseLesson['who'] =>
  text === 'trainer' || text === 'employer' ? text : 'trainee';

/** The lessons of the course, read off the list on the page. */
export function readPlaces(): CourseLesson[] {
  return [...document.querySelectorAll<HTMLElement>('[data-stop]')].map(({ dataset }) => ({
    id: dataset['stop'] ?? '',
    after: namesIn(dataset['after']),
    who: whoOf(dataset['who']),
    asks: namesIn(dataset['asks']),
    tasks: namesIn(dataset['tasks']),
  }));
}

const stateOf = ({ isDone, isNext, isBegun }: LessonProgress) =>
  isDone ? 'done' : isNext ? 'next' : isBegun ? 'begun' : 'open';

export const titleOf = (id: string): string =>
  document.querySelector<HTMLElement>(
    `[data-stop="${id}"] [data-title], [data-stop="${id}"][data-title]`,
  )?.textContent ?? id;

/** In words under a lesson: how far it is, what is left, what to do first. */
function sayProgress(progress: LessonProgress): string {
  const { right, asked, isDone, tasksLeft, waitsFor } = progress;
  const sentences = [sayScore(right, asked)];
  if (!isDone && right === asked && tasksLeft.length > 0) sentences.push(say('task-left'));
  if (!isDone && waitsFor.length > 0) {
    sentences.push(say('waits', { lessons: waitsFor.map(titleOf).join(', ') }));
  }
  return sentences.filter(Boolean).join(' ');
}

function showPlace(id: string, progress: LessonProgress): void {
  const state = stateOf(progress);
  for (const part of document.querySelectorAll<HTMLElement>(
    `[data-stop="${id}"], [data-stop-of="${id}"]`,
  )) {
    part.dataset['state'] = state;
    const word = part.querySelector('[data-state-word]');
    if (word !== null) word.textContent = state === 'open' ? '' : say(state);
    const line = part.querySelector('[data-state-line]');
    if (line !== null) line.textContent = sayProgress(progress);
  }
}

/** What is due of the questions these lessons ask. */
export const dueNow = (places: readonly CourseLesson[]): Due =>
  findDue(answersInCourse(places, readLearnt().answers), new Date().toISOString());

/** How many questions are due, where a page has room for it. */
function showDue(places: readonly CourseLesson[]): void {
  const { due, next } = dueNow(places);
  for (const box of document.querySelectorAll<HTMLElement>('[data-due]')) {
    box.hidden = due.length === 0 && next === null;
    const line = box.querySelector('[data-due-line]');
    if (line !== null) line.textContent = sayDue(due.length, next?.dueAt ?? null);
  }
}

/** How many are due now; where none is, when the next are. */
export function sayDue(count: number, nextAt: string | null): string {
  if (count > 0) return say.count('due', count);
  if (nextAt === null) return say('due.first');
  return `${say('due.none')} ${say('due.next', { day: dayIn(pageLanguage(), nextAt) })}`;
}

/** On a lesson: which of the lessons it builds on are not done yet. */
export function showWaiting(): void {
  const line = document.querySelector<HTMLElement>('[data-waits]');
  if (line === null) return;
  const open = [...readCourse(readPlaces(), readLearnt())].filter(([, { isDone }]) => !isDone);
  const lessons = open.map(([id]) => titleOf(id)).join(', ');
  line.textContent = lessons === '' ? '' : say('waits.anyway', { lessons });
}

/** Keeps the list, the map and the count of the lessons page as what is known changes. */
export function startCourseList(): void {
  const places = readPlaces();
  const show = (): void => {
    for (const [id, progress] of readCourse(places, readLearnt())) showPlace(id, progress);
    showDue(places);
  };
  show();
  document.addEventListener('learnt', show);
}
