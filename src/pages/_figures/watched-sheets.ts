import type { Site } from '../../accounts/index.ts';
import type { WatchedSheet } from '../../assessment/index.ts';

/** Signed sheets that figures rest on, the newest ones. */
const MOST_SHEETS = 2_000;

/** The newest signed sheets of an organisation that stand as they were entered. */
export async function watchedSheets(site: Site, org: string): Promise<WatchedSheet[]> {
  const stored = await site.store.events({ org, kinds: ['practical.signed'], last: MOST_SHEETS });
  return stored.flatMap(({ event, broken }) => {
    if (event === null || broken !== null) return [];
    const { trainer, who, unit, bench, work, observedAt, criteria } = event.body.statement;
    return [
      {
        trainer: trainer.person,
        person: who.person,
        task: `${unit.id} ${bench.id} ${work}`,
        day: observedAt,
        criteria: criteria.map(({ id, result }) => ({ id, result })),
      },
    ];
  });
}
