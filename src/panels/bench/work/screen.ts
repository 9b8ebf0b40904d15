/** What the page and the device ask of a picture. Browser code. */

export const prefersStillness = (): boolean =>
  matchMedia('(prefers-reduced-motion: reduce)').matches;

export function sheetTheme(): 'light' | 'dark' {
  const chosen = document.documentElement.dataset['theme'];
  if (chosen === 'light' || chosen === 'dark') return chosen;
  return matchMedia('(prefers-color-scheme: dark)').matches ? 'dark' : 'light';
}

/** Calls back when the sheet turns light or dark, by the page's switch or the device's. */
export function watchTheme(changed: () => void): () => void {
  const device = matchMedia('(prefers-color-scheme: dark)');
  document.addEventListener('themechange', changed);
  device.addEventListener('change', changed);
  return () => {
    document.removeEventListener('themechange', changed);
    device.removeEventListener('change', changed);
  };
}
