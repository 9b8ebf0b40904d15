import type { Site } from '../../../accounts/index.ts';
import { authorisationsOf, type Day, dayOf } from '../../../competence/index.ts';
import { loadUnits } from '../../../store/content-files.ts';
import { eventsOf } from '../events-of.ts';
import { type CountAsked, type KeepCount, keepCount } from '../keep-count.ts';
import { givenLeave } from '../read-events.ts';
import { type AuthorisationFilter, fitsLeave, instantOf, type LeaveMark, markOf } from './list.ts';

/** The authorisations of everybody in an organisation at an instant, by opaque id. */
export const countLeave: KeepCount<CountAsked, readonly LeaveMark[]> = keepCount({
  everybody: ({ org }, site) => givenLeave(org, site),
  async workOut(people, { at, read }, _asked, { contentDir }) {
    const units = [...loadUnits(contentDir).values()];
    const nameOf = (person: string) => person;
    const found = people.map((person) => {
      const events = eventsOf(read, person);
      return [person, authorisationsOf({ events, person, at, units, nameOf }).map(markOf)] as const;
    });
    return new Map(found.filter(([, leaves]) => leaves.length > 0));
  },
});

export type LeaveAsked = {
  readonly org: string;
  readonly day: Day;
  readonly now: string;
  readonly filter: AuthorisationFilter;
};

/** Who holds what a list is asked for, before a page of them is cut out. */
export type FoundLeave = {
  /** opaque ids in no order */
  readonly holders: readonly string[];
  /** authorisations on all pages together; null where they are all on the one page there is */
  readonly total: number | null;
  /** people counted so far, of all there are to count; the same number twice once it is done */
  readonly done: number;
  readonly all: number;
};

async function countGiven(org: string, { store }: Site): Promise<number> {
  const { count } = await store.db
    .selectFrom('event')
    .select(({ fn }) => fn.countAll().as('count'))
    .where('org', '=', org)
    .where('kind', '=', 'authorisation.given')
    .executeTakeFirstOrThrow();
  return Number(count);
}

/**
 * Finds who has an authorisation that fits the filter on a day, of everybody in the organisation.
 * @param patience ms to wait until everybody is counted
 */
export async function findLeave(
  { day, filter, now, org }: LeaveAsked,
  site: Site,
  patience?: number,
): Promise<FoundLeave> {
  if (filter.person !== '') return { holders: [filter.person], total: null, done: 0, all: 0 };
  const isNow = day === dayOf(now);
  const isNarrowed = filter.bench !== '' || filter.work !== '' || filter.state !== '';
  if (isNow && !isNarrowed) {
    const holders = await givenLeave(org, site);
    return { holders, total: await countGiven(org, site), done: 0, all: 0 };
  }
  const asked = { org, instant: instantOf(day, now), isNow };
  const { all, done, found } = await countLeave(asked, site, patience);
  const fitting = [...found]
    .map(([person, leaves]) => ({
      person,
      count: leaves.filter((leave) => fitsLeave(leave, filter)).length,
    }))
    .filter(({ count }) => count > 0);
  const holders = fitting.map(({ person }) => person);
  return { holders, total: fitting.reduce((sum, { count }) => sum + count, 0), done, all };
}
