import type { Site } from '../../accounts/index.ts';
import { startOfDay } from '../../competence/index.ts';
import { PERSON_KINDS, SHOP_KINDS } from './kinds-that-bear.ts';
import { type ReadEvents, readFor, readShop } from './read-events.ts';

/** An organisation at an instant, or now: ISO text in UTC. */
export type CountAsked = {
  readonly org: string;
  readonly instant: string;
  readonly isNow: boolean;
};

/** What was found of each person; of whom nothing was found is not there. */
export type Counted<Found> = {
  readonly found: ReadonlyMap<string, Found>;
  /** people who are worked out, of all there are to work out; the same number twice once it is done */
  readonly done: number;
  readonly all: number;
};

/** What was read for some people: their own records with what bears on everybody. */
export type CountRead = { readonly read: ReadEvents; readonly at: string };

/** What is counted of each person, and how. */
export type Tally<Asked extends CountAsked, Found> = {
  /** everybody of whom there may be something to find */
  readonly everybody: (asked: Asked, site: Site) => Promise<readonly string[]>;
  /** some of them worked out; who is left out has nothing */
  readonly workOut: (
    people: readonly string[],
    read: CountRead,
    asked: Asked,
    site: Site,
  ) => Promise<ReadonlyMap<string, Found>>;
};

/** A count of a whole organisation, kept from one request to the next. */
export type KeepCount<Asked extends CountAsked, Found> = (
  asked: Asked,
  site: Site,
  patience?: number,
) => Promise<Counted<Found>>;

type Book<Found> = {
  readonly found: Map<string, Found>;
  /** the place in the log it has been kept up to */
  seq: number;
  readonly todo: Set<string>;
  /** people who are being worked out */
  inHand: number;
  readonly all: number;
  work: Promise<void> | null;
  /** another one has taken its place: what is left of it is not worked out */
  isReplaced: boolean;
};

const KINDS = [
  ...PERSON_KINDS,
  ...SHOP_KINDS,
  'bench.checked',
  'person.joined',
  'person.role-changed',
] as const;

/** Counts of one sort kept at a time, the newest asked last: each is some hundred bytes for each person. */
const MOST_BOOKS = 6;
/** People worked out between two turns of the process, so that others are served meanwhile. */
const AT_A_TIME = 10;
/** New events after which all is counted anew. */
const MANY_EVENTS = 2_000;
/** ms that a page waits for what is not counted yet. */
const PATIENCE = 1_500;

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

/** The people new events bear on, or null where they may bear on everybody. */
async function changedSince(seq: number, org: string, site: Site): Promise<string[] | null> {
  const asked = { org, kinds: KINDS, after: seq, limit: MANY_EVENTS };
  const fresh = await site.store.events(asked);
  if (fresh.length === MANY_EVENTS) return null;
  const people = new Set<string>();
  for (const { event, broken } of fresh) {
    if (event === null || broken !== null) return null;
    const isSound = event.kind === 'bench.checked' && event.body.verdict === 'fit';
    const isOwn =
      event.kind === 'person.joined' || PERSON_KINDS.some((kind) => kind === event.kind);
    if (isSound) people.add(event.by);
    else if (isOwn && event.about !== null) people.add(event.about);
    else return null;
  }
  return [...people];
}

/** Now, or the end of the day counted for that is nearer: a count of one day is never mixed with another's. */
function instantFor({ instant, isNow }: CountAsked): string {
  if (!isNow) return instant;
  const start = startOfDay(instant.slice(0, 10));
  const end = start + 86_400_000 - 1;
  return new Date(Math.min(Math.max(Date.now(), start), end)).toISOString();
}

const beginBook = <Found>(people: readonly string[], seq: number): Book<Found> => ({
  found: new Map(),
  seq,
  todo: new Set(people),
  inHand: 0,
  all: people.length,
  work: null,
  isReplaced: false,
});

async function waitFor(work: Promise<void>, patience: number): Promise<void> {
  if (!Number.isFinite(patience)) return work;
  let timer: NodeJS.Timeout | undefined;
  const waited = new Promise<void>((resolve) => {
    timer = setTimeout(resolve, patience);
  });
  await Promise.race([work, waited]);
  clearTimeout(timer);
}

/**
 * Makes a count that is worked out once for each organisation and kept up by new events alone: an event of one
 * person has that person worked out again, one that bears on everybody all of them. Where that takes longer than
 * `patience` ms, what is done so far comes back and the rest goes on: nobody's page waits for thousands of people.
 * With an unchanged log an answer changes only as a day begins, in UTC, so a count of now is kept for its day.
 * @param tally what is counted; what it finds is kept, so it holds nobody's name
 * @param nameOf what else, beside organisation and instant, makes one count another
 */
export function keepCount<Asked extends CountAsked, Found>(
  tally: Tally<Asked, Found>,
  nameOf: (asked: Asked) => string = () => '',
): KeepCount<Asked, Found> {
  const books = new Map<string, Book<Found>>();

  function keep(key: string, book: Book<Found>): Book<Found> {
    const before = books.get(key);
    if (before !== undefined && before !== book) before.isReplaced = true;
    books.delete(key);
    books.set(key, book);
    for (const old of [...books.keys()].slice(0, -MOST_BOOKS)) books.delete(old);
    return book;
  }

  /** The count as far as it was kept, brought up to the log by whom new events bear on. */
  async function openBook(key: string, asked: Asked, site: Site): Promise<Book<Found>> {
    const newest = await newestOf(asked.org, site);
    const known = books.get(key);
    if (known?.seq === newest) return keep(key, known);
    const changed = known === undefined ? null : await changedSince(known.seq, asked.org, site);
    if (known !== undefined && changed !== null && !known.isReplaced) {
      for (const person of changed) known.todo.add(person);
      known.seq = newest;
      return keep(key, known);
    }
    const people = await tally.everybody(asked, site);
    // another request may have begun the same count meanwhile
    const other = books.get(key);
    if (other !== undefined && other !== known && other.seq >= newest) return keep(key, other);
    return keep(key, beginBook(people, newest));
  }

  /** Works on until nothing is left to do, some people at a time. */
  async function workOff(book: Book<Found>, asked: Asked, site: Site): Promise<void> {
    const shop = await readShop(asked.org, site);
    while (book.todo.size > 0 && !book.isReplaced) {
      const people = [...book.todo].slice(0, AT_A_TIME);
      // taken off before anything of theirs is read: what is entered meanwhile puts them on again
      for (const person of people) book.todo.delete(person);
      book.inHand = people.length;
      try {
        const at = instantFor(asked);
        const read = await readFor(asked.org, people, shop, site);
        const found = await tally.workOut(people, { read, at }, asked, site);
        for (const person of people) {
          const one = found.get(person);
          if (one === undefined) book.found.delete(person);
          else book.found.set(person, one);
        }
      } catch (error) {
        for (const person of people) book.todo.add(person);
        throw error;
      } finally {
        book.inHand = 0;
      }
      await new Promise((resolve) => setImmediate(resolve));
    }
  }

  async function count(asked: Asked, site: Site, patience = PATIENCE): Promise<Counted<Found>> {
    const when = asked.isNow ? `now ${asked.instant.slice(0, 10)}` : asked.instant;
    const key = JSON.stringify([asked.org, when, nameOf(asked)]);
    const book = await openBook(key, asked, site);
    if (book.todo.size + book.inHand > 0) {
      book.work ??= workOff(book, asked, site).finally(() => {
        book.work = null;
      });
      await waitFor(book.work, patience);
    }
    const left = book.todo.size + book.inHand;
    // who waits for all of it waits for the one that took its place
    if (left > 0 && !Number.isFinite(patience)) return count(asked, site, patience);
    return { found: book.found, done: Math.max(0, book.all - left), all: book.all };
  }
  return count;
}
