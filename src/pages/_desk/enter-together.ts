import type { Site } from '../../accounts/index.ts';
import { draftHash, type EventDraft } from '../../records/index.ts';
import { isIdConflict } from '../../store/index.ts';
import { type Done, refusedFor } from './refused.ts';

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
 */
export async function enterTogether(
  first: EventDraft,
  site: Site,
  makeRest: () => Promise<Done<readonly EventDraft[]>> = async () => ({ ok: true, value: [] }),
): Promise<Done<'logged' | 'repeat'>> {
  const refuseOther = refusedFor(422, 'id', 'machine.no.id');
  const held = await heldAs(first, site);
  if (held === 'same') return { ok: true, value: 'repeat' };
  if (held === 'other') return refuseOther;
  const rest = await makeRest();
  if (!rest.ok) return rest;
  try {
    await site.store.write(async ({ append }) => {
      for (const draft of [first, ...rest.value]) await append(draft);
    });
  } catch (error) {
    if (!isIdConflict(error)) throw error;
    // two presses at the same moment: the other one was first
    return (await heldAs(first, site)) === 'same' ? { ok: true, value: 'repeat' } : refuseOther;
  }
  return { ok: true, value: 'logged' };
}
