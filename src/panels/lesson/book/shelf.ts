import { type Answer, compareAnswers } from '../../../assessment/review/index.ts';

/**
 * What the people who use this device have answered in lessons, in the browser's own storage. One book for
 * each person who has signed in, and one for answers given before anybody did.
 */
export type Book = {
  readonly answers: readonly Answer[];
  /** ids of answers the site has not been sent yet */
  readonly unsent: readonly string[];
  /** bench tasks opened */
  readonly tasks: readonly string[];
  /** answers without an owner up to this instant are not this person's; empty: not asked yet */
  readonly notMine: string;
};

export type Shelf = {
  /** opaque id of the person signed in when the site last told; null for nobody */
  readonly who: string | null;
  readonly books: Readonly<Record<string, Book>>;
};

/** Key of the book of answers that nobody was signed in for. */
export const NOBODY = '';
export const EMPTY_BOOK: Book = { answers: [], unsent: [], tasks: [], notMine: '' };
const EMPTY: Shelf = { who: null, books: {} };

const KEY = 'learning';
/** Most answers in a book: the oldest go first, and some 100 bytes each stay well inside what a browser grants. */
const LONGEST_BOOK = 4000;
const SLUG = /^[a-z0-9]+(-[a-z0-9]+)*$/;
const ID = /^[a-z0-9:-]{8,170}$/;

type Fields = Readonly<Record<string, unknown>>;
const fieldsOf = (value: unknown): Fields =>
  typeof value === 'object' && value !== null ? (value as Fields) : {};
const listOf = (value: unknown): readonly unknown[] => (Array.isArray(value) ? value : []);
const textsOf = (value: unknown): string[] =>
  listOf(value).filter((one): one is string => typeof one === 'string');
const isText = (value: unknown, pattern: RegExp): value is string =>
  typeof value === 'string' && pattern.test(value);

/** An answer as it lies in storage, [id, lesson, question, 1 or 0, instant]; nothing for anything else. */
function readAnswer(value: unknown): Answer[] {
  const [id, lesson, question, right, at] = listOf(value);
  if (!isText(id, ID) || !isText(lesson, SLUG) || !isText(question, SLUG)) return [];
  if (typeof at !== 'string' || Number.isNaN(Date.parse(at))) return [];
  return [{ id, lesson, question, right: right === 1, at: new Date(at).toISOString() }];
}

function readBook(value: unknown): Book {
  const { answers, unsent, tasks, notMine } = fieldsOf(value);
  return {
    answers: listOf(answers).flatMap(readAnswer),
    unsent: textsOf(unsent),
    tasks: textsOf(tasks),
    notMine: typeof notMine === 'string' ? notMine : '',
  };
}

function parseShelf(text: string | null): Shelf {
  if (text === null) return EMPTY;
  const { version, who, books } = fieldsOf(JSON.parse(text));
  if (version !== 1) return EMPTY;
  return {
    who: typeof who === 'string' ? who : null,
    books: Object.fromEntries(
      Object.entries(fieldsOf(books)).map(([owner, book]) => [owner, readBook(book)]),
    ),
  };
}

const writeBook = ({ answers, unsent, tasks, notMine }: Book) => ({
  answers: [...answers]
    .sort(compareAnswers)
    .slice(-LONGEST_BOOK)
    .map(({ id, lesson, question, right, at }) => [id, lesson, question, right ? 1 : 0, at]),
  unsent,
  tasks,
  notMine,
});

// Where storage is refused or full, what is learnt lasts as long as the page.
let held: Shelf | null = null;

/** What lies in storage; anything it cannot make sense of counts as nothing. */
export function readShelf(): Shelf {
  if (held !== null) return held;
  try {
    return parseShelf(localStorage.getItem(KEY));
  } catch {
    return EMPTY;
  }
}

/** Replaces what lies in storage, and tells the page so: `learnt` on the document. Whether it was kept. */
export function writeShelf({ who, books }: Shelf): boolean {
  const written = Object.entries(books).map(([owner, book]) => [owner, writeBook(book)]);
  try {
    const text = JSON.stringify({ version: 1, who, books: Object.fromEntries(written) });
    localStorage.setItem(KEY, text);
    held = null;
  } catch {
    held = { who, books };
  }
  globalThis.document?.dispatchEvent(new CustomEvent('learnt'));
  return held === null;
}

export const bookOf = ({ books }: Shelf, owner: string): Book => books[owner] ?? EMPTY_BOOK;

/** The shelf with one book changed; a book with nothing in it is taken off. */
export function putBook(shelf: Shelf, owner: string, book: Book): Shelf {
  const { [owner]: _old, ...others } = shelf.books;
  const isEmpty = book.answers.length + book.tasks.length + book.notMine.length === 0;
  return { ...shelf, books: isEmpty ? others : { ...others, [owner]: book } };
}
