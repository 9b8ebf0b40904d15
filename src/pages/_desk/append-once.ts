import type { Site } from '../../accounts/index.ts';
import type { EventDraft, EventKindName, EventOf } from '../../records/index.ts';
import { isEventRefused, isIdConflict, type StoreWrite } from '../../store/index.ts';
import { type Done, type Refused, refused } from './refused.ts';

/**
 * The events of these kinds about one person, as a transaction sees them: for a rule that must still hold at
 * the moment of entry, when two people act at once.
 */
export async function eventsAt<Kind extends EventKindName>(
  { db }: StoreWrite,
  filter: { readonly org: string; readonly about: string; readonly kinds: readonly Kind[] },
): Promise<{ [K in Kind]: EventOf<K> }[Kind][]> {
  const rows = await db
    .selectFrom('event')
    .select('json')
    .where('org', '=', filter.org)
    .where('about', '=', filter.about)
    .where('kind', 'in', [...filter.kinds])
    .orderBy('seq')
    .execute();
  return rows.flatMap(({ json }) => {
    try {
      return [JSON.parse(json) as { [K in Kind]: EventOf<K> }[Kind]];
    } catch {
      return []; // a row that was written over says nothing
    }
  });
}

/**
 * Enters an event unless, inside the same transaction, something speaks against it. The same event again gets
 * the same answer.
 * @param whyNot what speaks against it as the log stands now, or null
 */
export async function appendOnce(
  draft: EventDraft,
  whyNot: (write: StoreWrite) => Promise<Refused | null>,
  { store }: Site,
): Promise<Done<{ readonly id: string; readonly at: string }>> {
  const stop = new Error('Something speaks against it.');
  let why: Refused | null = null;
  try {
    return await store.write(async (write) => {
      why = await whyNot(write);
      const appended = await write.append(draft);
      if (appended.state !== 'repeat' && why !== null) throw stop; // undoes the entry
      return { ok: true, value: { id: draft.id, at: appended.event.received } };
    });
  } catch (error) {
    if (error === stop && why !== null) return why;
    if (isIdConflict(error)) return refused(422, 'id', error.message);
    if (isEventRefused(error)) return refused(422, error.problem.path, error.problem.message);
    throw error;
  }
}
