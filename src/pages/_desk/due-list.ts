import { can, type Role } from '../../accounts/index.ts';
import { type Due, dueOf } from '../../competence/index.ts';
import { sayTold } from '../../components/people/say-told.ts';
import type { Speaker } from '../../words/say.ts';
import { eventsOf } from './events-of.ts';
import type { Workshop } from './workshop.ts';

/** Who looks: a signed-in person, or whoever a calendar address belongs to. */
export type DueReader = { readonly org: string; readonly person: string; readonly role: Role };

/**
 * What is due for everybody, by day, from one reading of the log: each person's own from their own events, and
 * the machines' from all of them.
 */
export function dueOfAll(workshop: Workshop, at: string): Due[] {
  const { people, benches, units, nameOf } = workshop;
  const asked = { at, benches, units, nameOf };
  const atBenches = dueOf({ ...asked, events: workshop.events, people: [] });
  const ofPeople = people.flatMap((person) =>
    dueOf({ ...asked, events: eventsOf(workshop, person.person), people: [person] }).filter(
      (due) => due.person !== null,
    ),
  );
  return [...atBenches, ...ofPeople].sort(
    (a, b) => a.day.localeCompare(b.day) || a.id.localeCompare(b.id),
  );
}

/** What is due for one reader by their role: everything for who looks after others, and their own for the rest. */
export function dueFor(workshop: Workshop, reader: DueReader, at: string): Due[] {
  const viewer = { ...reader, name: '', email: '', signedInAt: at };
  if (can(viewer, 'due.read', { org: reader.org })) {
    return dueOfAll(workshop, at).filter(({ who }) => who.includes(reader.role));
  }
  if (!can(viewer, 'due.read', { org: reader.org, person: reader.person })) return [];
  const own = workshop.people.filter(({ person }) => person === reader.person);
  return dueOfAll({ ...workshop, people: own, benches: workshop.benches }, at).filter(
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
