import { followLog, keptKeyId } from '../signing/index.ts';
import { showForkedLog } from './show-forked-log.ts';

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

/**
 * Shows a log that did not go on, then asks the site again. Only where a checkpoint is kept already: a desk
 * that signs nothing keeps nothing.
 */
export async function watchLog(): Promise<void> {
  await showForkedLog();
  await followLog('held').catch(() => undefined);
  await showForkedLog();
}
