import { can, type Role, type Site } from '../../accounts/index.ts';
import { type Due, dueOf } from '../../competence/index.ts';
import { sayTold } from '../../components/people/say-told.ts';
import type { Speaker } from '../../words/say.ts';
import { eventsOf } from './events-of.ts';
import { readChecks, readTogether } from './read-events.ts';
import { type Workshop, withPeople } from './workshop.ts';

/** Who looks: a signed-in person, or whoever a calendar address belongs to. */
export type DueReader = { readonly org: string; readonly person: string; readonly role: Role };

/** People worked out between two turns of the process, so that others are served meanwhile. */
const AT_A_TIME = 100;
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

/** What is due for some people, from their own records. */
export function dueOfPeople(workshop: Workshop, whose: Workshop['people'], at: string): Due[] {
  const { benches, nameOf, units } = workshop;
  return whose.flatMap((person) =>
    dueOf({
      ...{ at, benches, units, nameOf, people: [person] },
      events: eventsOf(workshop, person.person),
    }).filter((due) => due.person !== null),
  );
}

/** What is due for some people and at the machines, by day: some people at a time. */
export async function dueOfAll(
  workshop: Workshop,
  whose: Workshop['people'],
  at: string,
  site: Site,
): Promise<Due[]> {
  const found = await dueAtMachines(workshop, at, site);
  for (let from = 0; from < whose.length; from += AT_A_TIME) {
    const some = whose.slice(from, from + AT_A_TIME);
    const people = some.map(({ person }) => person);
    found.push(...dueOfPeople(await withPeople(workshop, people, site), some, at));
    await new Promise((resolve) => setImmediate(resolve));
  }
  return byDay(found);
}

/**
 * What is due for one reader by their role: for who looks after others all that is due for the people named and
 * at the machines, and their own for the rest.
 * @param whose people of the workshop
 */
export async function dueFor(
  workshop: Workshop,
  reader: DueReader,
  { at, whose }: { readonly at: string; readonly whose: Workshop['people'] },
  site: Site,
): Promise<Due[]> {
  const viewer = { ...reader, name: '', email: '', signedInAt: at };
  if (can(viewer, 'due.read', { org: reader.org })) {
    const all = await dueOfAll(workshop, whose, at, site);
    return all.filter(({ who }) => who.includes(reader.role));
  }
  if (!can(viewer, 'due.read', { org: reader.org, person: reader.person })) return [];
  const own = workshop.people.filter(({ person }) => person === reader.person);
  const known = await withPeople(workshop, [reader.person], site);
  return byDay(dueOfPeople(known, own, at)).filter(
    ({ person, who }) => person === reader.person && who.includes('trainee'),
  );
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
