import type { Answer, Learnt } from '../../../assessment/review/index.ts';
import { bookOf, EMPTY_BOOK, NOBODY, putBook, readShelf, writeShelf } from './shelf.ts';

/** What the person now at this device has done, as far as the device knows. */
export function readLearnt(): Learnt {
  const shelf = readShelf();
  return bookOf(shelf, shelf.who ?? NOBODY);
}

/** An id nobody else has: the browser's own generator of ids is missing where the site has no certificate. */
function makeId(): string {
  const bytes = crypto.getRandomValues(new Uint8Array(16));
  return Array.from(bytes, (byte) => byte.toString(16).padStart(2, '0')).join('');
}

/** Writes an answer down for whoever is at this device, to be sent when there is a network. */
export function writeAnswer(lesson: string, question: string, right: boolean): void {
  const answer = { id: makeId(), lesson, question, right, at: new Date().toISOString() };
  writeAnswers([answer]);
}

export function writeAnswers(answers: readonly Answer[]): boolean {
  const shelf = readShelf();
  const owner = shelf.who ?? NOBODY;
  const book = bookOf(shelf, owner);
  const unsent = owner === NOBODY ? [] : [...book.unsent, ...answers.map(({ id }) => id)];
  const next = { ...book, answers: [...book.answers, ...answers], unsent };
  return writeShelf(putBook(shelf, owner, next));
}

/** Writes down that the bench of a task was opened. */
export function writeTask(task: string): void {
  const shelf = readShelf();
  const owner = shelf.who ?? NOBODY;
  const book = bookOf(shelf, owner);
  if (book.tasks.includes(task)) return;
  writeShelf(putBook(shelf, owner, { ...book, tasks: [...book.tasks, task] }));
}

/** Erases from this device what the person now at it has answered. */
export function wipeBook(): void {
  const shelf = readShelf();
  writeShelf(putBook(shelf, shelf.who ?? NOBODY, EMPTY_BOOK));
}
