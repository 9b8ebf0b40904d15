import type { Site } from '../../../accounts/index.ts';
import type { StoreWrite } from '../../../store/index.ts';

/** What somebody who authorises looks at: a new entry of these kinds may change what they would sign. */
const WATCHED = [
  'organisation.rules-set',
  'bench.registered',
  'near-miss.reported',
  'practical.signed',
  'practical.cosigned',
  'practical.withdrawn',
  'appeal.settled',
  'practice.confirmed',
  'authorisation.given',
  'authorisation.suspended',
  'authorisation.refreshed',
  'authorisation.ended',
] as const;

/**
 * The newest place in the log of anything that bears on authorisations of these people and machines, -1 for
 * nothing. The same before and inside the transaction means that nothing came between.
 */
export async function markLog(
  org: string,
  about: readonly string[],
  { db }: Pick<StoreWrite, 'db'> | Site['store'],
): Promise<number> {
  const row = await db
    .selectFrom('event')
    .select(({ fn }) => fn.max('seq').as('seq'))
    .where('org', '=', org)
    .where('kind', 'in', [...WATCHED])
    .where('about', 'in', [org, ...about])
    .executeTakeFirst();
  return row?.seq ?? -1;
}
