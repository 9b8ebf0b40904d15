/** 32 hexadecimal digits by chance. `randomUUID` is missing where a page comes without encryption. */
const drawHold = (): string =>
  [...crypto.getRandomValues(new Uint8Array(16))]
    .map((byte) => byte.toString(16).padStart(2, '0'))
    .join('');

const KEY = 'sitting-hold';

/**
 * What this tab calls itself. It is put down when the page is left and taken up by the next page in the
 * same tab, so that reloading goes on without asking; a copy of the tab finds none and draws its own.
 */
export function holdOfTab(storage: () => Storage): string {
  let hold: string | null = null;
  try {
    hold = storage().getItem(KEY);
    storage().removeItem(KEY);
  } catch {
    // a browser that keeps nothing: the tab is a new one after each reload
  }
  return hold !== null && /^[0-9a-f]{32}$/.test(hold) ? hold : drawHold();
}

export function putDownHold(storage: () => Storage, hold: string): void {
  try {
    storage().setItem(KEY, hold);
  } catch {
    // as above
  }
}
