import {
  type Group,
  groupsOf,
  type ListedPerson,
  listPeople,
  type Site,
  type Viewer,
} from '../../../accounts/index.ts';
import {
  type CountedCell,
  cellsAt,
  countPlaces,
  isAskedFor,
  type MatrixCell,
  type MatrixFilters,
  type MatrixPlace,
  type NeededUnit,
  peopleThen,
  placesAsked,
  type RegisteredBench,
  registerThen,
  type ThenPerson,
} from '../../../competence/index.ts';
import type { MatrixAsked } from '../../../components/matrix/read-asked.ts';
import { loadUnits } from '../../../store/content-files.ts';
import type { StoredEvent } from '../../../store/index.ts';
import type { Speaker } from '../../../words/say.ts';
import { givenLeave, type ReadEvents, readFor, readShop } from '../read-events.ts';
import { countPeople } from './count-people.ts';

/** People on one page. */
export const PEOPLE_A_PAGE = 50;

/** One row: somebody, and what they may do at each place asked for. */
export type MatrixRow = ThenPerson & {
  readonly name: string;
  readonly cells: readonly MatrixCell[];
};

/** What was asked, found and counted, before anybody's own events are read. */
export type MatrixReach = {
  readonly asked: MatrixAsked;
  readonly instant: string;
  readonly groups: readonly Group[];
  /** every bench in the register then, and those asked for with the work asked for */
  readonly register: readonly RegisteredBench[];
  readonly benches: readonly RegisteredBench[];
  /** bench and work asked for, with how many may */
  readonly places: readonly MatrixPlace[];
  /** opaque ids of everybody asked for, by name */
  readonly people: readonly string[];
  readonly units: readonly NeededUnit[];
  readonly nameOf: (person: string) => string;
  readonly members: readonly ListedPerson[];
  readonly shop: ReadEvents;
  /** how far everybody was counted; the same number twice once it is done */
  readonly counted: { readonly done: number; readonly all: number };
};

export type MatrixView = MatrixReach & {
  readonly rows: readonly MatrixRow[];
  readonly page: number;
  readonly pages: number;
  readonly altered: readonly StoredEvent[];
};

const keyOf = ({ bench, work }: { readonly bench: string; readonly work: string }): string =>
  `${bench} ${work}`;

/** Whether somebody's cells hold one that is asked for; where nothing was counted, they may not. */
function hasAsked(
  cells: readonly CountedCell[],
  places: readonly { readonly bench: string; readonly work: string }[],
  { asked, instant }: { readonly asked: MatrixAsked; readonly instant: string },
): boolean {
  const known = new Map(cells.map((cell) => [keyOf(cell), cell]));
  return places.some((place) => {
    const cell = known.get(keyOf(place)) ?? { ...place, state: 'may-not' as const, until: null };
    return isAskedFor(cell, instant, asked.state ?? undefined);
  });
}

const hold = (text: string, part: string): boolean =>
  text.toLocaleLowerCase('en').includes(part.toLocaleLowerCase('en'));

/** Narrows the members, and those who held leave and left, to whom is asked for; those who left come last. */
function findPeople(
  members: readonly ListedPerson[],
  given: readonly string[],
  about: {
    readonly asked: MatrixAsked;
    readonly instant: string;
    readonly groups: readonly Group[];
  },
): string[] {
  const { asked, groups, instant } = about;
  const held = new Set(given);
  const here = new Set(members.map(({ person }) => person));
  const named = (person: string, name: string) =>
    asked.person === '' || person === asked.person || hold(name, asked.person);
  const group = groups.find(({ id }) => id === asked.group);
  const stood = members.filter(
    ({ joinedAt, person, role }) =>
      held.has(person) || (role !== 'employer' && joinedAt <= instant),
  );
  return [
    ...stood.filter(({ person, name }) => named(person, name)).map(({ person }) => person),
    ...given.filter((person) => !here.has(person) && named(person, '')),
  ].filter((person) => group?.people.has(person) ?? true);
}

/**
 * Finds out whom and what a matrix is asked for, and counts the places. Reads nobody's own events itself.
 * @param patience ms to wait until everybody is counted
 */
export async function reachOf(
  viewer: Pick<Viewer, 'org'>,
  asked: MatrixAsked,
  site: Site,
  say: Speaker,
  patience?: number,
): Promise<MatrixReach> {
  const { org } = viewer;
  const instant = asked.on?.instant ?? new Date().toISOString();
  const units = [...loadUnits(site.contentDir).values()].sort((a, b) => a.number - b.number);
  const members = await listPeople(org, site);
  const groups = await groupsOf(org, site);
  const given = await givenLeave(org, site);
  const shop = await readShop(org, site);
  const names = new Map(members.map(({ person, name }) => [person, name]));
  const register = registerThen(shop.events, instant, asked.known);
  const filters: MatrixFilters = {
    ...(register.some(({ id }) => id === asked.bench) ? { benches: [asked.bench] } : {}),
    ...(register.some(({ work }) => work.some((one) => one === asked.work))
      ? { works: [asked.work] }
      : {}),
  };
  const every = placesAsked(register, filters);
  const isNow = asked.on === null;
  const count = await countPeople(
    { org, instant, isNow, known: asked.known, units },
    site,
    patience,
  );
  const here = [...count.found].filter(([person]) => names.has(person));
  const counts = countPlaces(
    every,
    here.flatMap(([, cells]) => cells),
    instant,
  );
  const places = counts.filter(({ gap }) => asked.state !== 'gap' || gap !== null);
  const keys = new Set(places.map(keyOf));
  const benches = register
    .map((bench) => ({
      ...bench,
      work: bench.work.filter((work) => keys.has(keyOf({ bench: bench.id, work }))),
    }))
    .filter(({ work }) => work.length > 0);
  const found = findPeople(members, given, { asked, instant, groups });
  const people =
    asked.state === null || asked.state === 'gap'
      ? found
      : found.filter((person) =>
          hasAsked(count.found.get(person) ?? [], every, { asked, instant }),
        );
  return {
    ...{ asked, instant, groups, register, benches, places, people, units, members, shop },
    nameOf: (person) => names.get(person) ?? say('matrix.left'),
    counted: { done: count.done, all: count.all },
  };
}

/** The rows of some people: only their own events are read, with what bears on everybody. */
export async function rowsOf(
  reach: MatrixReach,
  people: readonly string[],
  org: string,
  site: Site,
): Promise<{ readonly rows: MatrixRow[]; readonly altered: readonly StoredEvent[] }> {
  const { asked, instant, members, nameOf, places, shop, units } = reach;
  const { altered, events } = await readFor(org, people, shop, site);
  const wanted = new Set(people);
  const known = new Map(members.map((one) => [one.person, one]));
  const listed = people.flatMap((person) => known.get(person) ?? []);
  const log = { events, people: listed, units, nameOf };
  const then = peopleThen(log, instant).filter(({ person }) => wanted.has(person));
  const rows = then.map((one): MatrixRow => {
    const cells = cellsAt(log, instant, { people: [one.person], places, known: asked.known });
    return { ...one, name: nameOf(one.person), cells };
  });
  return { rows, altered };
}

/** One page of the matrix. */
export async function matrixFor(
  viewer: Pick<Viewer, 'org'>,
  asked: MatrixAsked,
  site: Site,
  say: Speaker,
): Promise<MatrixView> {
  const reach = await reachOf(viewer, asked, site, say);
  const pages = Math.max(1, Math.ceil(reach.people.length / PEOPLE_A_PAGE));
  const page = Math.min(asked.page, pages);
  const shown = reach.people.slice((page - 1) * PEOPLE_A_PAGE, page * PEOPLE_A_PAGE);
  const { altered, rows } = await rowsOf(reach, shown, viewer.org, site);
  return { ...reach, rows, page, pages, altered };
}
