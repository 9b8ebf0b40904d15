import { can, type Role, type Site } from '../../accounts/index.ts';
import { type Due, dueOf } from '../../competence/index.ts';
import { sayTold } from '../../components/people/say-told.ts';
import type { Speaker } from '../../words/say.ts';
import { countDue, dueOfPeople } from './count-due.ts';
import { readChecks, readTogether } from './read-events.ts';
import { type Workshop, withPeople } from './workshop.ts';

/** Who looks: a signed-in person, or whoever a calendar address belongs to. */
export type DueReader = { readonly org: string; readonly person: string; readonly role: Role };

/** Newest records of work at machines that are looked at for which machines are in use. */
const MOST_USES = 500;
/** Newest checks of each machine that are looked at for one of today. */
const NEWEST_CHECKS = 10;

/** By day, and what falls on one day in an order that stays. */
export const byDay = (due: readonly Due[]): Due[] =>
  due.toSorted((a, b) => a.day.localeCompare(b.day) || a.id.localeCompare(b.id));

/** What is due at the machines. */
export async function dueAtMachines(workshop: Workshop, at: string, site: Site): Promise<Due[]> {
  const { benches, nameOf, org, read, units } = workshop;
  const uses = await site.store.events({
    ...{ org, last: MOST_USES },
    kinds: ['practical.signed', 'practice.noted'],
  });
  const wanted = { benches: benches.map(({ id }) => id), each: NEWEST_CHECKS };
  const checks = await readChecks(org, wanted, site);
  const { events } = readTogether(read.stored, uses, checks);
  return dueOf({ at, benches, units, nameOf, events, people: [] }).filter(
    ({ person }) => person === null,
  );
}

/** What is due, and how far everybody it is asked of was counted; the same number twice once it is done. */
export type DueFound = {
  readonly due: readonly Due[];
  readonly done: number;
  readonly all: number;
};

/** People of the workshop, and the instant. */
export type DueAsked = {
  readonly at: string;
  readonly whose: Workshop['people'];
  /** ms to wait until everybody is counted; a page has a little by itself */
  readonly patience?: number;
};

/** What is due for some people now and at the machines, by day: people as they were counted last. */
export async function dueOfAll(
  workshop: Workshop,
  { at, patience, whose }: DueAsked,
  site: Site,
): Promise<DueFound> {
  const machines = await dueAtMachines(workshop, at, site);
  if (whose.length === 0) return { due: byDay(machines), done: 0, all: 0 };
  const asked = { org: workshop.org, instant: at, isNow: true };
  const { all, done, found } = await countDue(asked, site, patience);
  const people = whose.flatMap(({ person }) => found.get(person) ?? []);
  return { due: byDay([...machines, ...people]), done, all };
}

/**
 * What is due for one reader by their role: for who looks after others all that is due for the people named and
 * at the machines, and their own for the rest.
 */
export async function dueFor(
  workshop: Workshop,
  reader: DueReader,
  asked: DueAsked,
  site: Site,
): Promise<DueFound> {
  const { at } = asked;
  const viewer = { ...reader, name: '', email: '', signedInAt: at };
  if (can(viewer, 'due.read', { org: reader.org })) {
    const { due, ...counted } = await dueOfAll(workshop, asked, site);
    return { due: due.filter(({ who }) => who.includes(reader.role)), ...counted };
  }
  const nothing = { due: [], done: 0, all: 0 };
  if (!can(viewer, 'due.read', { org: reader.org, person: reader.person })) return nothing;
  const own = workshop.people.filter(({ person }) => person === reader.person);
  const known = await withPeople(workshop, [reader.person], site);
  const due = byDay(dueOfPeople(known, own, at)).filter(
    ({ person, who }) => person === reader.person && who.includes('trainee'),
  );
  return { ...nothing, due };
}

/** Where what is due is dealt with: the sheet, the record, the person or the machine it is about. */
export function placeOf({ id, kind, person }: Due): string {
  const [, of = ''] = id.split(':');
  switch (kind) {
    case 'authorisation-ends':
    case 'authorisation-ended':
    case 'long-break':
    case 'rests':
    case 'awaits-second':
      return `/authorisations/${of}`;
    case 'awaits-cosign':
      return `/practical/${of}`;
    case 'bench-out':
    case 'no-check':
      return '/register';
    default:
      return person === null ? '/due' : `/people/${person}`;
  }
}

/** What is due as one line: whom, which machine, what. Names only where they are wanted. */
export function sayDue(
  due: Due,
  workshop: Workshop,
  say: Speaker,
  names: 'names' | 'none',
): string {
  const bench = workshop.benches.find(({ id }) => id === due.bench)?.asset;
  const who = due.person === null || names === 'none' ? undefined : workshop.nameOf(due.person);
  const what = sayTold(due.told, say);
  if (who !== undefined && bench !== undefined) return say('due.line.both', { who, bench, what });
  if (who !== undefined) return say('due.line.who', { who, what });
  return bench === undefined ? what : say('due.line.bench', { bench, what });
}
