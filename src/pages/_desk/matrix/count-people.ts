import type { Site } from '../../../accounts/index.ts';
import {
  type CountedCell,
  countedCellsAt,
  type Known,
  type NeededUnit,
  placesAsked,
  registerThen,
} from '../../../competence/index.ts';
import { type CountAsked as AskedAt, keepCount } from '../keep-count.ts';

/** Everybody who may do something, or whose leave to do it rests, with where. Who is not here may do nothing. */
export type Counted = {
  readonly cells: ReadonlyMap<string, readonly CountedCell[]>;
  /** people whose cells are worked out, of those who were ever given leave */
  readonly done: number;
  readonly all: number;
};

/** What is counted: an organisation at an instant, or now. */
export type CountAsked = AskedAt & {
  readonly known: Known;
  readonly units: readonly NeededUnit[];
};

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

const countCells = keepCount<CountAsked, readonly CountedCell[]>(
  {
    everybody: ({ org }, site) => givenLeave(org, site),
    async workOut(people, { at, read: { events } }, { known, units }) {
      const places = placesAsked(registerThen(events, at, known), {});
      const log = { events, units, nameOf: (person: string) => person };
      const found = people.map((person) => {
        const cells = countedCellsAt(log, at, { person, places, known });
        return [person, cells] as const;
      });
      return new Map(found.filter(([, cells]) => cells.length > 0));
    },
  },
  ({ known }) => known,
);

/**
 * Who may do what in a whole organisation, worked out once and kept up by new events alone.
 * @param patience ms to wait until everybody is counted
 */
export async function countPeople(
  asked: CountAsked,
  site: Site,
  patience?: number,
): Promise<Counted> {
  const { found, done, all } = await countCells(asked, site, patience);
  return { cells: found, done, all };
}
