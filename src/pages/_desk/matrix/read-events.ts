import type { Site } from '../../../accounts/index.ts';
import type { LogEvent } from '../../../competence/index.ts';
import type { StoredEvent } from '../../../store/index.ts';
import { PERSON_KINDS, SHOP_KINDS } from '../kinds-that-bear.ts';
import { toLogEvent } from '../workshop.ts';

/** As a check says it in the text of the log, which is canonical: no blanks, one spelling. */
const SOUND = '"verdict":"fit"';
const NOT_SOUND = '"verdict":"not-fit"';

/** Events, and those among them that were changed after they were entered. */
export type ReadEvents = {
  readonly events: readonly LogEvent[];
  readonly altered: readonly StoredEvent[];
};

const toRead = (stored: readonly StoredEvent[]): ReadEvents => ({
  events: stored.flatMap(toLogEvent),
  altered: stored.filter(({ broken }) => broken !== null),
});

/** What bears on everybody: machines, rules and near misses. Daily checks that found nothing are not read. */
export async function readShop(org: string, { store }: Site): Promise<ReadEvents> {
  const shop = await store.events({ org, kinds: SHOP_KINDS });
  const notFit = await store.events({ org, kinds: ['bench.checked'], containing: NOT_SOUND });
  return toRead([...shop, ...notFit].sort((a, b) => a.seq - b.seq));
}

/** What bears on some people, with the checks they did and the roles of them and of whoever signed for them. */
export async function readPeople(
  org: string,
  people: readonly string[],
  { store }: Site,
): Promise<ReadEvents> {
  const own = await store.events({ org, kinds: PERSON_KINDS, abouts: people });
  const checks = await store.events({
    org,
    kinds: ['bench.checked'],
    bys: people,
    containing: SOUND,
  });
  return toRead([...own, ...checks].sort((a, b) => a.seq - b.seq));
}

/** The roles that people held, as the log says. */
export async function readRoles(
  org: string,
  people: readonly string[],
  { store }: Site,
): Promise<ReadEvents> {
  return toRead(
    await store.events({
      org,
      kinds: ['person.joined', 'person.role-changed'],
      abouts: people,
    }),
  );
}

/** Everything that bears on what some people may do, beside what was read of the shop. */
export async function readFor(
  org: string,
  people: readonly string[],
  shop: ReadEvents,
  site: Site,
): Promise<ReadEvents> {
  const own = await readPeople(org, people, site);
  const signers = [...shop.events, ...own.events].map(({ by }) => by);
  const roles = await readRoles(org, [...people, ...signers], site);
  return {
    events: [...roles.events, ...shop.events, ...own.events],
    altered: [...roles.altered, ...shop.altered, ...own.altered].sort((a, b) => a.seq - b.seq),
  };
}
