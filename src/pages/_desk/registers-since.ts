import { type LogEvent, type RegisteredBench, registerOf } from '../../competence/index.ts';

const isEntryOf = (event: LogEvent, bench: string): boolean =>
  event.kind === 'bench.registered' && event.about === bench && event.altered !== true;

/**
 * The register as it is now, and as it was after each entry of a bench back to the one that stood at an
 * instant, the newest first. A device that was away signs with the entry it knew.
 * @param events in the order of the log
 */
export function registersSince(
  events: readonly LogEvent[],
  bench: string,
  at: string,
): (readonly RegisteredBench[])[] {
  const places = events.flatMap((event, place) => (isEntryOf(event, bench) ? [place] : []));
  const stood = places.findLastIndex(
    (place) => Date.parse(events[place]?.received ?? '') <= Date.parse(at),
  );
  const wanted = places.slice(Math.max(0, stood)).reverse();
  if (wanted.length === 0) return [registerOf(events)];
  // up to the next entry of the bench nothing about it changes, so the log is cut just behind each
  return wanted.map((place, index) =>
    registerOf(index === 0 ? events : events.slice(0, place + 1)),
  );
}
