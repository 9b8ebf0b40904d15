import { type Answer, mergeAnswers } from '../../../assessment/review/index.ts';
import type { KeptLearning } from '../../../learning/index.ts';
import { bookOf, EMPTY_BOOK, NOBODY, putBook, readShelf, type Shelf, writeShelf } from './shelf.ts';

const ADDRESS = '/api/progress';
/** The site takes 500 in one request. */
const AT_ONCE = 400;

/** What the site keeps for the person signed in, null for nobody, undefined where no good answer came. */
async function ask(method: 'GET' | 'POST' | 'DELETE', body?: object) {
  try {
    const reply = await fetch(ADDRESS, {
      method,
      ...(body && { body: JSON.stringify(body), headers: { 'content-type': 'application/json' } }),
    });
    return reply.ok ? ((await reply.json()) as KeptLearning | null) : undefined;
  } catch {
    return undefined;
  }
}

const union = (a: readonly string[], b: readonly string[]): string[] => [...new Set([...a, ...b])];

/** The site's answers take the place of those it has been sent; what it does not have yet stays. */
function takeOver(kept: KeptLearning, sent: ReadonlySet<string>): Shelf {
  const before = readShelf();
  if (before.who !== kept.person) leaveDevice();
  const shelf = { ...readShelf(), who: kept.person };
  const book = bookOf(shelf, kept.person);
  const waiting = new Set(book.unsent.filter((id) => !sent.has(id)));
  const own = book.answers.filter(({ id }) => waiting.has(id));
  const next = {
    ...book,
    answers: mergeAnswers(kept.answers, own),
    unsent: own.map(({ id }) => id),
    tasks: union(kept.tasks, book.tasks),
  };
  const written = putBook(shelf, kept.person, next);
  writeShelf(written);
  return written;
}

/**
 * Nobody is signed in any more: what the site keeps goes from the device. Answers it was never sent wait, out
 * of sight, until their owner signs in here again.
 */
export function leaveDevice(): void {
  const shelf = readShelf();
  if (shelf.who === null) return;
  const { answers, unsent, notMine } = bookOf(shelf, shelf.who);
  const own = answers.filter(({ id }) => unsent.includes(id));
  const kept = { ...EMPTY_BOOK, answers: own, unsent: own.map(({ id }) => id), notMine };
  writeShelf({ ...putBook(shelf, shelf.who, kept), who: null });
}

/** Sends what has not been sent, and takes what other devices sent. Without a network nothing changes. */
export async function exchange(): Promise<void> {
  const kept = await ask('GET');
  if (kept === undefined) return;
  if (kept === null) return leaveDevice();
  let shelf = takeOver(kept, new Set());
  for (;;) {
    const { answers: all, unsent } = bookOf(shelf, kept.person);
    const waiting = new Set(unsent);
    const answers = all.filter(({ id }) => waiting.has(id)).slice(0, AT_ONCE);
    if (answers.length === 0) return;
    const reply = await ask('POST', { person: kept.person, answers });
    if (!reply) return;
    shelf = takeOver(reply, new Set(answers.map(({ id }) => id)));
  }
}

/** Erases the answers of the person signed in from the site and from this device. Whether it was done. */
export async function eraseKept(): Promise<boolean> {
  const kept = await ask('DELETE');
  if (!kept) return false;
  const book = bookOf(readShelf(), kept.person);
  takeOver(kept, new Set(book.unsent));
  return true;
}

/** Answers given here before anybody signed in, which the person signed in has not been asked about. */
export function findUnowned(): readonly Answer[] {
  const shelf = readShelf();
  if (shelf.who === null) return [];
  const { notMine } = bookOf(shelf, shelf.who);
  return bookOf(shelf, NOBODY).answers.filter(({ at }) => at > notMine);
}

/** They are theirs: joined to what is kept for them, and sent. */
export function joinUnowned(): Promise<void> {
  const shelf = readShelf();
  if (shelf.who === null) return Promise.resolve();
  const theirs = findUnowned();
  const taken = new Set(theirs.map(({ id }) => id));
  const nobodys = bookOf(shelf, NOBODY);
  const book = bookOf(shelf, shelf.who);
  const joined = {
    ...book,
    answers: mergeAnswers(book.answers, theirs),
    unsent: union(book.unsent, [...taken]),
    tasks: union(book.tasks, nobodys.tasks),
  };
  const left = {
    ...nobodys,
    answers: nobodys.answers.filter(({ id }) => !taken.has(id)),
    tasks: [],
  };
  writeShelf(putBook(putBook(shelf, shelf.who, joined), NOBODY, left));
  return exchange();
}

/** They are not: they stay on the device as they were, and this person is not asked about them again. */
export function declineUnowned(): void {
  const shelf = readShelf();
  if (shelf.who === null) return;
  const last =
    findUnowned()
      .map(({ at }) => at)
      .sort()
      .at(-1) ?? '';
  const book = bookOf(shelf, shelf.who);
  if (last !== '') writeShelf(putBook(shelf, shelf.who, { ...book, notMine: last }));
}
