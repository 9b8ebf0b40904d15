import type { LogEvent } from '../../competence/index.ts';
import type { Workshop } from './workshop.ts';

/** Kinds that bear on one person alone; everything else bears on everybody. */
const OF_ONE = /^(practical|practice|authorisation|appeal)\./;

type Sorted = {
  readonly shared: readonly LogEvent[];
  readonly own: ReadonlyMap<string | null, readonly LogEvent[]>;
  readonly asked: Map<string, readonly LogEvent[]>;
};
const sorted = new WeakMap<readonly LogEvent[], Sorted>();

function sortOut(events: readonly LogEvent[]): Sorted {
  const known = sorted.get(events);
  if (known !== undefined) return known;
  const made: Sorted = {
    shared: events.filter(({ kind }) => !OF_ONE.test(kind)),
    own: Map.groupBy(
      events.filter(({ kind }) => OF_ONE.test(kind)),
      ({ about }) => about,
    ),
    asked: new Map(),
  };
  sorted.set(events, made);
  return made;
}

/**
 * The events that bear on one person: their own, and what concerns machines, roles and rules. The same answers
 * come of it as of the whole log, and a board of hundreds of people is quick.
 */
export function eventsOf(
  { events }: Pick<Workshop, 'events'>,
  person: string,
): readonly LogEvent[] {
  const { shared, own, asked } = sortOut(events);
  const known = asked.get(person);
  if (known !== undefined) return known;
  const found = [...shared, ...(own.get(person) ?? [])];
  asked.set(person, found);
  return found;
}
