import { forkedLog, settleLog } from '../signing/index.ts';

/** Shows, on the page of devices, the two heads of a log that did not go on, until a person has dealt with it. */
export async function showForkedLog(): Promise<void> {
  const place = document.querySelector<HTMLElement>('[data-forked-log]');
  const found = await forkedLog().catch(() => null);
  if (place === null || found === null) return;
  for (const which of ['kept', 'found'] as const) {
    const box = place.querySelector(`[data-head="${which}"]`);
    if (box !== null) box.textContent = found[which];
  }
  if (!place.hidden) return;
  place.hidden = false;
  place.querySelector('[data-settle]')?.addEventListener('click', () => {
    void settleLog().then(() => {
      place.hidden = true;
    });
  });
}
