import { keptKeyId } from '../signing/index.ts';

/** Marks, among the devices of whoever is signed in, the one in front of them. */
export async function markThisDevice(): Promise<void> {
  const place = document.querySelector<HTMLElement>('[data-panel="devices"]');
  const person = place?.dataset['person'];
  if (place === null || person === undefined) return;
  const keyId = await keptKeyId(person).catch(() => null);
  for (const line of place.querySelectorAll<HTMLElement>('[data-this-device]')) {
    if (keyId !== null && line.dataset['thisDevice'] === keyId) line.hidden = false;
  }
}
