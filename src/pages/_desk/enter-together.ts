import type { Site } from '../../accounts/index.ts';
import { draftHash, type EventDraft } from '../../records/index.ts';
import { isIdConflict, type StoreWrite } from '../../store/index.ts';
import { type Done, type Refused, refusedFor } from './refused.ts';

/** Whether the log holds this very event already, whatever the moment it was first sent. */
async function heldAs(draft: EventDraft, { store }: Site): Promise<'none' | 'same' | 'other'> {
  const stored = (await store.event(draft.id))?.event ?? null;
  if (stored === null) return 'none';
  const { received: _, ...before } = stored;
  const again = { ...draft, at: stored.at };
  return draftHash(before as EventDraft) === draftHash(again) ? 'same' : 'other';
}

/**
 * Enters the events of one press of a button together, or none of them. The id of the first was made where the
 * button is, so a second press finds it there and enters nothing.
 * @param makeRest the other events, asked for only when the first is new; it may refuse
 * @param whyNot what speaks against all of it inside the transaction, when two people act at once, or null
 */
export async function enterTogether(
  first: EventDraft,
  site: Site,
  makeRest: () => Promise<Done<readonly EventDraft[]>> = async () => ({ ok: true, value: [] }),
  whyNot: (write: StoreWrite) => Promise<Refused | null> = async () => null,
): Promise<Done<'logged' | 'repeat'>> {
  const refuseOther = refusedFor(422, 'id', 'machine.no.id');
  const held = await heldAs(first, site);
  if (held === 'same') return { ok: true, value: 'repeat' };
  if (held === 'other') return refuseOther;
  const rest = await makeRest();
  if (!rest.ok) return rest;
  try {
    const why = await site.store.write(async (write) => {
      const against = await whyNot(write);
      if (against !== null) return against;
      for (const draft of [first, ...rest.value]) await write.append(draft);
      return null;
    });
    if (why !== null) return why;
  } catch (error) {
    if (!isIdConflict(error)) throw error;
    // two presses at the same moment: the other one was first
    return (await heldAs(first, site)) === 'same' ? { ok: true, value: 'repeat' } : refuseOther;
  }
  return { ok: true, value: 'logged' };
}
