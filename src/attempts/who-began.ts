import type { Site } from '../accounts/index.ts';
import type { LogEvent } from '../records/index.ts';

/** Ids that are looked at for a beginning that was entered under an id of its own. */
const NEXT_IDS = 20;

type Began = LogEvent & { readonly kind: 'attempt.started' | 'sitting.started' };

const isBegun = (event: LogEvent | null | undefined, kind: Began['kind']): event is Began =>
  event?.kind === kind;

/**
 * Whose attempt or sitting of the organisation this is, or null when it has none of that id. A beginning carries
 * the id of what it began. Older ones have the next id that the same process made (RFC 9562, version 7: they
 * count up), so those are among the first behind it.
 */
export async function whoBegan(
  { store }: Site,
  {
    attempt,
    kind,
    org,
  }: { readonly attempt: string; readonly kind: Began['kind']; readonly org: string },
): Promise<string | null> {
  const own = (await store.event(attempt))?.event;
  if (isBegun(own, kind)) return own.org === org ? (own.about ?? own.by) : null;
  const next = await store.db
    .selectFrom('event')
    .select('id')
    .where('org', '=', org)
    .where('kind', '=', kind)
    .where('id', '>', attempt)
    .orderBy('id')
    .limit(NEXT_IDS)
    .execute();
  for (const { id } of next) {
    const event = (await store.event(id))?.event;
    if (isBegun(event, kind) && event.body.attempt === attempt) return event.about ?? event.by;
  }
  return null;
}
