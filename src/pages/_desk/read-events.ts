import type { Site } from '../../accounts/index.ts';
import type { LogEvent } from '../../competence/index.ts';
import type { EventKindName } from '../../records/index.ts';
import type { StoredEvent } from '../../store/index.ts';
import { PERSON_KINDS, SHOP_KINDS } from './kinds-that-bear.ts';

/** As a check says it in the text of the log, which is canonical: no blanks, one spelling. */
const SOUND = '"verdict":"fit"';
const NOT_SOUND = '"verdict":"not-fit"';

/** Events in the order of the log, and those among them that were changed after they were entered. */
export type ReadEvents = {
  readonly stored: readonly StoredEvent[];
  readonly events: readonly LogEvent[];
  readonly altered: readonly StoredEvent[];
};

/** An altered record is passed on as such: it counts for nobody, and an altered withdrawal still withdraws. */
const toLogEvent = ({ event, broken }: StoredEvent): LogEvent[] => {
  if (event === null) return [];
  return [broken === null ? event : { ...event, altered: true }];
};

/** Several readings as one: each event once, in the order of the log. */
export function readTogether(...readings: readonly (readonly StoredEvent[])[]): ReadEvents {
  const bySeq = new Map(readings.flat().map((one) => [one.seq, one]));
  const stored = [...bySeq.values()].sort((a, b) => a.seq - b.seq);
  return {
    stored,
    events: stored.flatMap(toLogEvent),
    altered: stored.filter(({ broken }) => broken !== null),
  };
}

/** The roles that people held, as the log says. */
const readRoles = (
  org: string,
  people: readonly string[],
  { store }: Site,
): Promise<StoredEvent[]> =>
  store.events({ org, kinds: ['person.joined', 'person.role-changed'], abouts: people });

const signersOf = (stored: readonly StoredEvent[]): string[] =>
  stored.flatMap(({ event }) => event?.by ?? []);

/**
 * What bears on everybody: machines, rules and near misses, with the roles of who entered them. Daily checks
 * that found nothing are not read.
 */
export async function readShop(org: string, site: Site): Promise<ReadEvents> {
  const { store } = site;
  const shop = await store.events({ org, kinds: SHOP_KINDS });
  const notFit = await store.events({ org, kinds: ['bench.checked'], containing: NOT_SOUND });
  const roles = await readRoles(org, signersOf([...shop, ...notFit]), site);
  return readTogether(roles, shop, notFit);
}

/**
 * Everything that bears on what some people may do, beside what was read of the shop: their own records, the
 * checks they did, and the roles of them and of whoever signed for them.
 */
export async function readFor(
  org: string,
  people: readonly string[],
  shop: ReadEvents,
  site: Site,
): Promise<ReadEvents> {
  const { store } = site;
  const own = await store.events({ org, kinds: PERSON_KINDS, abouts: people });
  const checks = await store.events({
    org,
    kinds: ['bench.checked'],
    bys: people,
    containing: SOUND,
  });
  const roles = await readRoles(org, [...people, ...signersOf(own)], site);
  return readTogether(shop.stored, own, checks, roles);
}

/** Everybody with a record of one of these kinds, by opaque id. */
export async function peopleWith(
  org: string,
  kinds: readonly EventKindName[],
  { store }: Site,
): Promise<string[]> {
  const rows = await store.db
    .selectFrom('event')
    .select('about')
    .distinct()
    .where('org', '=', org)
    .where('kind', 'in', kinds)
    .execute();
  return rows.flatMap(({ about }) => about ?? []);
}

/** Everybody who was ever given leave in writing. */
export const givenLeave = (org: string, site: Site): Promise<string[]> =>
  peopleWith(org, ['authorisation.given'], site);

/** The newest daily checks of some machines, at most `each` of one. */
export async function readChecks(
  org: string,
  { benches, each }: { readonly benches: readonly string[]; readonly each: number },
  { store }: Site,
): Promise<StoredEvent[]> {
  const found: StoredEvent[] = [];
  for (const about of benches) {
    found.push(...(await store.events({ org, kinds: ['bench.checked'], about, last: each })));
  }
  return found;
}
