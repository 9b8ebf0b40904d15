import type { Answer } from '../../../assessment/review/index.ts';
import { bookOf, NOBODY, putBook, readShelf, writeShelf } from './shelf.ts';

const OLD = /^lesson:([a-z0-9-]+)$/;

function readOld(lesson: string, text: string | null, at: string): Answer[] {
  try {
    const kept = JSON.parse(text ?? '{}') as { right?: unknown } | null;
    const right = Array.isArray(kept?.right) ? kept.right : [];
    return right
      .filter((one): one is string => typeof one === 'string')
      .map((question) => ({ id: `old:${lesson}:${question}`, lesson, question, right: true, at }));
  } catch {
    return [];
  }
}

/**
 * Takes over what earlier versions kept, `lesson:ID` with the questions answered right. When is not known,
 * so it counts from now. What is there stays until it is safely written down.
 */
export function carryOver(): void {
  try {
    const keys = Object.keys(localStorage).filter((key) => OLD.test(key));
    if (keys.length === 0) return;
    const at = new Date().toISOString();
    const old = keys.flatMap((key) =>
      readOld(OLD.exec(key)?.[1] ?? '', localStorage.getItem(key), at),
    );
    const shelf = readShelf();
    const book = bookOf(shelf, NOBODY);
    const answers = [...book.answers, ...old];
    if (!writeShelf(putBook(shelf, NOBODY, { ...book, answers }))) return;
    for (const key of keys) localStorage.removeItem(key);
  } catch {
    // storage refused: there is nothing to take over
  }
}
