import {
  checkPhoto,
  LARGEST_PHOTO,
  sha256,
  stripPhoto,
  toHex,
} from '../../../records/check/index.ts';
import { openDeviceStore, STRICT } from '../store/device-store.ts';
import type { KeptPhoto } from '../store/kept.ts';
import { drawPhoto } from './draw-photo.ts';

/** Bytes at which a photo is drawn coarser: well under what the site takes. */
const LARGEST_KEPT = Math.min(600_000, LARGEST_PHOTO);

export type PhotoKept = { readonly digest: string; readonly bytes: number; readonly url: string };

const urls = new Map<string, string>();

function urlOf({ bytes, digest }: Pick<KeptPhoto, 'bytes' | 'digest'>): string {
  const known = urls.get(digest);
  if (known !== undefined) return known;
  const url = URL.createObjectURL(new Blob([bytes], { type: 'image/jpeg' }));
  urls.set(digest, url);
  return url;
}

/**
 * Keeps a picture on this device, drawn afresh: nothing of the file but what can be seen is in it, so neither
 * place nor camera. JPEG, at most 1600 px on its longer side and 600 kB.
 * @throws Error for a file that is no picture; the browser's QuotaExceededError when there is no room
 */
export async function keepPhoto(file: Blob): Promise<PhotoKept> {
  // some browsers write blocks of their own into what they draw
  const bytes = stripPhoto(new Uint8Array(await drawPhoto(file, LARGEST_KEPT)));
  const drawn = bytes.buffer;
  const problem = checkPhoto(bytes);
  if (problem !== null) throw new Error(problem);
  const digest = toHex(sha256(bytes));
  const db = await openDeviceStore();
  const change = db.transaction('photos', 'readwrite', STRICT);
  const before = await change.store.get(digest);
  if (before === undefined) {
    await change.store.put({ digest, bytes: drawn, keptAt: new Date().toISOString(), heldBy: [] });
  }
  await change.done;
  return { digest, bytes: drawn.byteLength, url: urlOf({ digest, bytes: drawn }) };
}

/** Where a kept photo can be shown from, in this page; null when it is not on this device. */
export async function photoUrl(digest: string): Promise<string | null> {
  const photo = await (await openDeviceStore()).get('photos', digest);
  return photo === undefined ? null : urlOf(photo);
}

/** Takes a photo off this device, unless a signed record waits to send it. */
export async function dropPhoto(digest: string): Promise<void> {
  const change = (await openDeviceStore()).transaction('photos', 'readwrite', STRICT);
  const photo = await change.store.get(digest);
  if (photo !== undefined && photo.heldBy.length === 0) await change.store.delete(digest);
  await change.done;
  const url = urls.get(digest);
  if (url === undefined) return;
  URL.revokeObjectURL(url);
  urls.delete(digest);
}
