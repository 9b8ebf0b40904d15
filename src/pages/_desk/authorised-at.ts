import type { Site } from '../../accounts/index.ts';
import { addMonths, dayOf, rulesOf } from '../../competence/index.ts';
import type { Authorisation } from '../../records/index.ts';
import { readTogether } from './read-events.ts';
import type { Shop } from './workshop.ts';

/**
 * The people who hold an authorisation at a bench that has not ended, each once: by its own days and by whether
 * somebody ended it. Whether it rests is not asked, so that this stays quick for thousands of people.
 * @param bench id of a bench in the register
 */
export async function authorisedAt(
  { events, org }: Pick<Shop, 'events' | 'org'>,
  bench: string,
  at: string,
  { store }: Site,
): Promise<string[]> {
  const given = await store.events({
    org,
    kinds: ['authorisation.given'],
    containing: `"id":"${bench}"`,
  });
  const ends = await store.events({ org, kinds: ['authorisation.ended'] });
  const ended = new Set(ends.flatMap(({ event }) => event?.body.authorisation ?? []));
  const { months } = rulesOf(events, at);
  const today = dayOf(at);
  const holders = readTogether(given).events.flatMap((event) => {
    if (event.kind !== 'authorisation.given' || event.altered === true) return [];
    const { from, until, who, ...statement } = (event.body as { statement: Authorisation })
      .statement;
    const isHere = statement.bench.id === bench && !ended.has(event.id);
    return isHere && until >= today && addMonths(from, months) >= today ? [who.person] : [];
  });
  return [...new Set(holders)];
}
