import {
  type CountedCell,
  countedCellsAt,
  type Known,
  type NeededUnit,
  placesAsked,
  registerThen,
} from '../../../competence/index.ts';
import { type CountAsked as AskedAt, keepCount } from '../keep-count.ts';
import { givenLeave } from '../read-events.ts';

/** What is counted: an organisation at an instant, or now. */
export type CountAsked = AskedAt & {
  readonly known: Known;
  readonly units: readonly NeededUnit[];
};

/**
 * Who may do what in a whole organisation: of everybody who may do something, or whose leave to do it rests, where.
 * Who is not in it may do nothing.
 */
export const countPeople = keepCount<CountAsked, readonly CountedCell[]>(
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
