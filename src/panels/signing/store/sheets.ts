import { openDeviceStore, STRICT } from './device-store.ts';
import type { KeptSheet, Unsent } from './kept.ts';

/** Keeps a sheet as typed; resolves when it is on the disk. */
export async function keepSheet(kept: KeptSheet): Promise<void> {
  const db = await openDeviceStore();
  const change = db.transaction('sheets', 'readwrite', STRICT);
  await Promise.all([change.store.put(kept), change.done]);
}

export const keptSheet = async (sheetKey: string): Promise<KeptSheet | undefined> =>
  (await openDeviceStore()).get('sheets', sheetKey);

export async function dropSheet(sheetKey: string): Promise<void> {
  await (await openDeviceStore()).delete('sheets', sheetKey);
}

/** Everything this trainer left on this device: sheets as typed, and signed records not yet sent. */
export async function leftHere(
  trainer: string,
): Promise<{ readonly sheets: readonly KeptSheet[]; readonly unsent: readonly Unsent[] }> {
  const db = await openDeviceStore();
  const [sheets, unsent] = await Promise.all([db.getAll('sheets'), db.getAll('outbox')]);
  return {
    sheets: sheets.filter((one) => one.sheetKey.startsWith(`${trainer}/`)),
    unsent: unsent.filter((one) => one.trainer === trainer),
  };
}
