import type { Site, Viewer } from '../../accounts/index.ts';
import type { EventOf } from '../../records/index.ts';
import { type Done, refusedFor } from './refused.ts';

/** The signed practical of this workshop at an address, whole as it was entered, or why there is none. */
export async function findSigned(
  viewer: Pick<Viewer, 'org'>,
  signoff: string,
  { store }: Site,
): Promise<Done<EventOf<'practical.signed'> & { readonly about: string }>> {
  const stored = await store.event(signoff);
  const event = stored?.event ?? null;
  if (event?.kind !== 'practical.signed' || event.org !== viewer.org || event.about === null) {
    return refusedFor(404, 'signoff', 'desk.no-practical');
  }
  if (stored?.broken !== null) return refusedFor(409, 'signoff', 'desk.practical-broken');
  return { ok: true, value: { ...event, about: event.about } };
}
