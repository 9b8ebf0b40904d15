/**
 * Times on a form are typed by the clock of the device. Before the form is sent, how far that clock is from UTC on
 * that day goes into the hidden field beside them; without this the site takes the times as UTC.
 */
export function sendOwnClock(): void {
  for (const group of document.querySelectorAll<HTMLElement>('[data-own-clock]')) {
    const offset = group.querySelector<HTMLInputElement>('[data-offset]');
    const day = group.querySelector<HTMLInputElement>('input[type="date"]');
    const hint = group.querySelector<HTMLElement>('[data-clock-hint]');
    if (offset === null || day === null) continue;
    if (hint !== null) hint.textContent = hint.dataset['own'] ?? '';
    const form = group.closest('form');
    const write = (): void => {
      const minutes = new Date(`${day.value}T12:00`).getTimezoneOffset();
      offset.value = Number.isNaN(minutes) ? '' : String(minutes);
    };
    write();
    form?.addEventListener('submit', write);
  }
}
