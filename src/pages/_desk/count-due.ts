import { membersAmong } from '../../accounts/index.ts';
import { type Due, dueOf, registerOf } from '../../competence/index.ts';
import { loadUnits } from '../../store/content-files.ts';
import { eventsOf } from './events-of.ts';
import { type CountAsked, type KeepCount, keepCount } from './keep-count.ts';
import { PERSON_KINDS } from './kinds-that-bear.ts';
import { peopleWith } from './read-events.ts';
import type { Workshop } from './workshop.ts';

/** What is due for some people, from their own records. */
export function dueOfPeople(
  { benches, events, nameOf, units }: Pick<Workshop, 'benches' | 'events' | 'nameOf' | 'units'>,
  whose: Workshop['people'],
  at: string,
): Due[] {
  return whose.flatMap((person) =>
    dueOf({
      ...{ at, benches, units, nameOf, people: [person] },
      events: eventsOf({ events }, person.person),
    }).filter((due) => due.person !== null),
  );
}

/** What is due for everybody in an organisation, by opaque id. */
export const countDue: KeepCount<CountAsked, readonly Due[]> = keepCount({
  everybody: ({ org }, site) => peopleWith(org, PERSON_KINDS, site),
  async workOut(people, { at, read }, { org }, site) {
    const { events } = read;
    const shop = {
      ...{ events, benches: registerOf(events), nameOf: (person: string) => person },
      units: [...loadUnits(site.contentDir).values()].sort((a, b) => a.number - b.number),
    };
    const due = dueOfPeople(shop, await membersAmong(org, people, site), at);
    return Map.groupBy(due, ({ person }) => person ?? '');
  },
});
