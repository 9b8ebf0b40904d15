import { openDeviceStore, STRICT } from '../store/device-store.ts';
import { unmarkTrainer } from '../store/marks.ts';

/** Photos of drafts that are gone: no signed record holds them and no other draft names them. */
function isLeftOver(
  photo: { readonly digest: string; readonly heldBy: readonly string[] },
  drafts: string,
): boolean {
  return photo.heldBy.length === 0 && !drafts.includes(photo.digest);
}

/**
 * Takes off this device what belongs to a trainer who signs out: kit, password check, drafts and their
 * photos. Signed records that the site does not have stay, with their photos, until they are sent; so does the
 * key, which cannot be read out and signs nothing without a password.
 */
export async function leaveDevice(person: string): Promise<void> {
  const db = await openDeviceStore();
  const stores = ['kits', 'verifiers', 'notes', 'sheets', 'photos'] as const;
  const change = db.transaction([...stores], 'readwrite', STRICT);
  await change.objectStore('kits').delete(person);
  await change.objectStore('verifiers').delete(person);
  const note = await change.objectStore('notes').get('trainer');
  if (note?.name === 'trainer' && note.person === person) {
    await change.objectStore('notes').delete('trainer');
  }
  const sheets = change.objectStore('sheets');
  const kept: unknown[] = [];
  for (const sheet of await sheets.getAll()) {
    if (sheet.sheetKey.startsWith(`${person}/`)) await sheets.delete(sheet.sheetKey);
    else kept.push(sheet);
  }
  const drafts = JSON.stringify(kept);
  const photos = change.objectStore('photos');
  for (const photo of await photos.getAll()) {
    if (isLeftOver(photo, drafts)) await photos.delete(photo.digest);
  }
  const others = await change.objectStore('kits').count();
  await change.done;
  if (others === 0) unmarkTrainer();
}

/** How many signed records of this person wait here, refused ones with them. */
export async function waitingOf(person: string): Promise<number> {
  const db = await openDeviceStore();
  const [unsent, refused] = await Promise.all([db.getAll('outbox'), db.getAll('refused')]);
  return (
    unsent.filter(({ trainer }) => trainer === person).length +
    refused.filter(({ record }) => record.trainer === person).length
  );
}
