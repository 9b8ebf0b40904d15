import { toBase64 } from '../../../records/check/index.ts';
import { openDeviceStore } from '../store/device-store.ts';
import type { KeptPhoto, Unsent } from '../store/kept.ts';
import { UNSENT_FORMAT, type UnsentFile, type UnsentRecord } from './unsent-file.ts';

const recordOf = (one: Unsent): UnsentRecord => ({
  event: one.request.event,
  sheet: one.request.sheet,
  title: one.title,
  path: one.path,
  signedAt: one.signedAt,
  photos: one.photos,
});

/** The file of what waits: tickets and drafts stay behind, the signed events are whole. */
export function makeUnsentFile(
  records: readonly Unsent[],
  photos: readonly KeptPhoto[],
  savedAt: string,
): UnsentFile {
  const wanted = new Set(records.flatMap((one) => one.photos));
  return {
    format: UNSENT_FORMAT,
    savedAt,
    records: records.map(recordOf),
    photos: Object.fromEntries(
      photos
        .filter(({ digest }) => wanted.has(digest))
        .map(({ digest, bytes }) => [digest, toBase64(new Uint8Array(bytes))]),
    ),
  };
}

/** Everything signed on this device that the site does not have, refused records too, as one JSON file. */
export async function exportUnsent(): Promise<Blob> {
  const db = await openDeviceStore();
  const read = db.transaction(['outbox', 'refused', 'photos']);
  const [unsent, refused, photos] = await Promise.all([
    read.objectStore('outbox').getAll(),
    read.objectStore('refused').getAll(),
    read.objectStore('photos').getAll(),
  ]);
  const records = [...unsent, ...refused.map(({ record }) => record)].sort(
    (a, b) => a.order - b.order,
  );
  const file = makeUnsentFile(records, photos, new Date().toISOString());
  return new Blob([JSON.stringify(file)], { type: 'application/json' });
}
