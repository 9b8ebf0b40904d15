import type { Site } from '../../accounts/index.ts';
import type { EventFilter } from '../../store/index.ts';

/**
 * The site with its log read once for each question: a pack asks the same of every record, and must get the
 * same answer each time.
 */
export function snapshotOf(site: Site): Site {
  const asked = new Map<string, Promise<unknown>>();
  const once = <Value>(key: string, ask: () => Promise<Value>): Promise<Value> => {
    const known = asked.get(key) ?? ask();
    asked.set(key, known);
    return known as Promise<Value>;
  };
  const { store } = site;
  const events = ((filter: EventFilter) =>
    once(`events ${JSON.stringify(filter)}`, () => store.events(filter))) as typeof store.events;
  return { ...site, store: { ...store, events } };
}
