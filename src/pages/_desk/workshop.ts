import type { ListedPerson, Site, Viewer } from '../../accounts/index.ts';
import { byRole, listPeople, membersAmong } from '../../accounts/index.ts';
import {
  type LogEvent,
  type NeededUnit,
  type RegisteredBench,
  registerOf,
  statusOf,
  type Unit,
  type WorkStatus,
} from '../../competence/index.ts';
import type { LimitSet } from '../../limits/index.ts';
import { loadLimitSets, loadUnits } from '../../store/content-files.ts';
import type { StoredEvent } from '../../store/index.ts';
import { type Speaker, sayIn } from '../../words/say.ts';
import { type ReadEvents, readChecks, readFor, readShop, readTogether } from './read-events.ts';
import type { DeskWord } from './refused.ts';

/**
 * What pages about machines work from: one organisation's benches, units and limits, and as much of its log as
 * was read. What concerns machines, rules and near misses is always there; the records of people are there for
 * those who were asked for.
 */
export type Shop = {
  readonly org: string;
  readonly benches: readonly RegisteredBench[];
  readonly units: readonly Unit[];
  readonly sets: ReadonlyMap<string, LimitSet>;
  readonly read: ReadEvents;
  /** what was read, in the order of the log */
  readonly events: readonly LogEvent[];
  /** records among them that were changed after they were entered, in the order of the log */
  readonly altered: readonly StoredEvent[];
};

/** The same with everybody in the organisation, by role and then name. */
export type Workshop = Shop & {
  readonly people: readonly ListedPerson[];
  readonly nameOf: (person: string) => string;
};

/** How much is read besides what bears on everybody. The log of a large shop must not be read for one page. */
export type Reach = {
  /** whose own records are read */
  readonly people?: readonly string[];
  /** machines whose newest daily checks are read */
  readonly checksOf?: readonly string[];
};

/** Daily checks read of each machine asked for: some two working years of them. */
export const MOST_CHECKS = 500;

/** Ids of people are opaque; none is longer. */
const LONGEST_ID = 64;

const withRead = <One extends Shop>(shop: One, read: ReadEvents): One => ({
  ...shop,
  read,
  events: read.events,
  altered: read.altered,
});

/** The shop with all that bears on some people as well. */
export async function withPeople<One extends Shop>(
  shop: One,
  people: readonly string[],
  site: Site,
): Promise<One> {
  if (people.length === 0) return shop;
  return withRead(shop, await readFor(shop.org, people, shop.read, site));
}

const makeShop = (org: string, read: ReadEvents, { contentDir }: Site): Shop => ({
  org,
  benches: registerOf(read.events),
  units: [...loadUnits(contentDir).values()].sort((a, b) => a.number - b.number),
  sets: loadLimitSets(contentDir),
  read,
  events: read.events,
  altered: read.altered,
});

/** One organisation's machines, units and limits, with what else of its log is asked for. */
export async function shopOf(
  org: string,
  site: Site,
  { checksOf = [], people = [] }: Reach = {},
): Promise<Shop> {
  const shop = await readShop(org, site);
  const checks = await readChecks(org, { benches: checksOf, each: MOST_CHECKS }, site);
  const read = readTogether(shop.stored, checks);
  return withPeople(makeShop(org, read, site), people, site);
}

/** The register and the organisation's rules alone: what a signed practical is held against. */
export async function registerShopOf(org: string, site: Site): Promise<Shop> {
  const kinds = ['bench.registered', 'organisation.rules-set'] as const;
  return makeShop(org, readTogether(await site.store.events({ org, kinds })), site);
}

function nameFrom(people: readonly ListedPerson[], say: Speaker): Workshop['nameOf'] {
  const names = new Map(people.map(({ person, name }) => [person, name]));
  return (person) => names.get(person) ?? say('desk.left');
}

/** What everybody in an organisation is called; who has left has no name any more. */
export async function namesOf(
  org: string,
  site: Site,
  say: Speaker = sayIn('en'),
): Promise<Pick<Workshop, 'people' | 'nameOf'>> {
  const people = byRole(await listPeople(org, site));
  return { people, nameOf: nameFrom(people, say) };
}

/** @param say what somebody who has left is called in */
export async function workshopOf(
  org: string,
  site: Site,
  reach: Reach = {},
  say: Speaker = sayIn('en'),
): Promise<Workshop> {
  return { ...(await shopOf(org, site, reach)), ...(await namesOf(org, site, say)) };
}

/** Every text in a value that is short enough to be an id. */
function textsIn(value: unknown, into: Set<string>): void {
  if (typeof value === 'string') {
    if (value.length <= LONGEST_ID) into.add(value);
  } else if (typeof value === 'object' && value !== null) {
    for (const one of Object.values(value)) textsIn(one, into);
  }
}

/**
 * The workshop as one person's own pages need it: with their records, and of the others in it those alone who
 * stand in what was read. A list of thousands is not made for one book.
 */
export async function workshopAround(
  org: string,
  person: string,
  site: Site,
  say: Speaker = sayIn('en'),
): Promise<Workshop> {
  const shop = await shopOf(org, site, { people: [person] });
  const ids = new Set([person]);
  for (const event of shop.events) textsIn(event, ids);
  const people = await membersAmong(org, [...ids], site);
  return { ...shop, people, nameOf: nameFrom(people, say) };
}

/** Whether this is the invented workshop, whose sheets must not be taken for real ones. */
export async function isInvented(org: string, { store }: Site): Promise<boolean> {
  const row = await store.db
    .selectFrom('organisation')
    .select('invented')
    .where('id', '=', org)
    .executeTakeFirst();
  return row?.invented === 1;
}

/** Where one person stands with one kind of work on one bench. */
export function standingOf(
  workshop: Workshop,
  question: {
    readonly person: string;
    readonly bench: string;
    readonly work: string;
    readonly at: string;
  },
): WorkStatus {
  const { events, nameOf } = workshop;
  const units: readonly NeededUnit[] = workshop.units;
  return statusOf({ ...question, events, units, nameOf });
}

/** Why somebody who may not write here is refused, as one sentence of the sheet `desk`. */
export function whyNotWrite(viewer: Viewer | null): DeskWord {
  if (viewer === null) return 'desk.signed-out';
  if (viewer.role === 'employer') return 'desk.not.employer';
  return viewer.role === 'trainee' ? 'desk.not.trainee' : 'desk.not.self';
}
