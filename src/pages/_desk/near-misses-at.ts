import type { LogEvent } from '../../competence/index.ts';
import type { EventOf } from '../../records/index.ts';

const isNearMiss = (event: LogEvent): event is EventOf<'near-miss.reported'> =>
  event.kind === 'near-miss.reported' && event.altered !== true;

/** The near misses reported at a bench, the one that happened last first. */
export const nearMissesAt = (
  events: readonly LogEvent[],
  bench: string,
): EventOf<'near-miss.reported'>[] =>
  events
    .filter(isNearMiss)
    .filter(({ about }) => about === bench)
    .sort((a, b) => b.body.happenedAt.localeCompare(a.body.happenedAt));
