import type { Site } from '../../accounts/index.ts';
import type { WatchedSheet } from '../../assessment/index.ts';

/** Every signed sheet of an organisation that stands as it was entered. */
export async function watchedSheets(site: Site, org: string): Promise<WatchedSheet[]> {
  const stored = await site.store.events({ org, kinds: ['practical.signed'] });
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
