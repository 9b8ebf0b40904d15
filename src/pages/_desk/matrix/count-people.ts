import type { Site } from '../../../accounts/index.ts';
import {
  type CountedCell,
  countedCellsAt,
  type Known,
  type NeededUnit,
  placesAsked,
  registerThen,
} from '../../../competence/index.ts';
import { PERSON_KINDS, SHOP_KINDS } from '../kinds-that-bear.ts';
import { readFor, readShop } from '../read-events.ts';

/** Everybody who may do something, or whose leave to do it rests, with where. Who is not here may do nothing. */
export type Counted = {
  readonly cells: ReadonlyMap<string, readonly CountedCell[]>;
  /** people whose cells are worked out, of those who were ever given leave */
  readonly done: number;
  readonly all: number;
};

/** What is counted: an organisation at an instant, or now. */
export type CountAsked = {
  readonly org: string;
  readonly instant: string;
  readonly isNow: boolean;
  readonly known: Known;
  readonly units: readonly NeededUnit[];
};

type Book = {
  readonly cells: Map<string, readonly CountedCell[]>;
  /** the place in the log it has been kept up to */
  seq: number;
  todo: string[];
  all: number;
  work: Promise<void> | null;
};

const KINDS = [
  ...PERSON_KINDS,
  ...SHOP_KINDS,
  'bench.checked',
  'person.joined',
  'person.role-changed',
] as const;

/** Counts kept at a time, the newest asked last: each is some hundred bytes for each person. */
const MOST_BOOKS = 6;
/** People worked out between two turns of the process, so that others are served meanwhile. */
const AT_A_TIME = 10;
/** New events after which all is counted anew. */
const MANY_EVENTS = 2_000;
const books = new Map<string, Book>();

/** The newest event that bears on a count; -1 while there is none. */
async function newestOf(org: string, { store }: Site): Promise<number> {
  let newest = -1;
  for (const kind of KINDS) {
    const row = await store.db
      .selectFrom('event')
      .select('seq')
      .where('org', '=', org)
      .where('kind', '=', kind)
      .orderBy('seq', 'desc')
      .limit(1)
      .executeTakeFirst();
    newest = Math.max(newest, row?.seq ?? -1);
  }
  return newest;
}

/** Everybody who was ever given leave in writing. */
export async function givenLeave(org: string, { store }: Site): Promise<string[]> {
  const rows = await store.db
    .selectFrom('event')
    .select('about')
    .distinct()
    .where('org', '=', org)
    .where('kind', '=', 'authorisation.given')
    .execute();
  return rows.flatMap(({ about }) => (about === null ? [] : [about]));
}

/** The people new events bear on, or null where they may bear on everybody. */
async function changedSince(book: Book, org: string, site: Site): Promise<string[] | null> {
  const asked = { org, kinds: KINDS, after: book.seq, limit: MANY_EVENTS };
  const fresh = await site.store.events(asked);
  if (fresh.length === MANY_EVENTS) return null;
  const people = new Set<string>();
  for (const { event, broken } of fresh) {
    if (event === null || broken !== null) return null;
    const isSound = event.kind === 'bench.checked' && event.body.verdict === 'fit';
    const isOwn = PERSON_KINDS.some((kind) => kind === event.kind);
    if (isSound) people.add(event.by);
    else if (isOwn && event.about !== null) people.add(event.about);
    else if (event.kind !== 'person.joined') return null;
  }
  return [...people];
}

/** Works on until nothing is left to do, some people at a time. */
async function workOff(book: Book, asked: CountAsked, site: Site): Promise<void> {
  const shop = await readShop(asked.org, site);
  const at = asked.isNow ? new Date().toISOString() : asked.instant;
  const places = placesAsked(registerThen(shop.events, at, asked.known), {});
  while (book.todo.length > 0) {
    const people = book.todo.slice(0, AT_A_TIME);
    const { events } = await readFor(asked.org, people, shop, site);
    const log = { events, units: asked.units, nameOf: (person: string) => person };
    for (const person of people) {
      const found = countedCellsAt(log, at, { person, places, known: asked.known });
      if (found.length === 0) book.cells.delete(person);
      else book.cells.set(person, found);
    }
    book.todo = book.todo.slice(people.length);
    await new Promise((resolve) => setImmediate(resolve));
  }
}

const begin = (people: readonly string[], seq: number): Book => ({
  cells: new Map(),
  seq,
  todo: [...people],
  all: people.length,
  work: null,
});

/** The count as far as it was kept, brought up to the log by whom new events bear on. */
async function openBook(key: string, asked: CountAsked, site: Site): Promise<Book> {
  const newest = await newestOf(asked.org, site);
  const known = books.get(key);
  if (known !== undefined && known.seq === newest) return known;
  const changed = known === undefined ? null : await changedSince(known, asked.org, site);
  if (known !== undefined && changed !== null) {
    known.todo = [...new Set([...known.todo, ...changed])];
    known.seq = newest;
    return known;
  }
  return begin(await givenLeave(asked.org, site), newest);
}

/**
 * Who may do what in a whole organisation, worked out once and kept up by new events alone. Where that takes
 * longer than `patience` ms, what is done so far comes back, and the rest goes on: nobody's page waits for
 * thousands of people. With an unchanged log an answer changes only as a day begins, so a count of now is
 * kept for its day.
 */
export async function countPeople(
  asked: CountAsked,
  site: Site,
  patience = 1_500,
): Promise<Counted> {
  const when = asked.isNow ? `now ${asked.instant.slice(0, 10)}` : asked.instant;
  const key = JSON.stringify([asked.org, when, asked.known]);
  const book = await openBook(key, asked, site);
  books.delete(key);
  books.set(key, book);
  for (const old of [...books.keys()].slice(0, -MOST_BOOKS)) books.delete(old);
  if (book.todo.length > 0) {
    book.work ??= workOff(book, asked, site).finally(() => {
      book.work = null;
    });
    let timer: NodeJS.Timeout | undefined;
    const waited = new Promise<void>((resolve) => {
      timer = setTimeout(resolve, patience);
    });
    await Promise.race([book.work, waited]);
    clearTimeout(timer);
  }
  return { cells: book.cells, done: Math.max(0, book.all - book.todo.length), all: book.all };
}
