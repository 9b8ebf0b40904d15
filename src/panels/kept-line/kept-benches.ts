import { BUILT_BENCHES } from '../../offline/index.ts';

/** Shows, among the benches listed, those that are kept on this device. */
export async function showKeptBenches(): Promise<void> {
  const list = document.querySelector<HTMLElement>('[data-kept-benches]');
  if (list === null || !('caches' in globalThis)) return;
  const names = (await caches.keys()).filter((name) => name.startsWith(BUILT_BENCHES));
  const urls = await Promise.all(
    names.map(async (name) => (await (await caches.open(name)).keys()).map(({ url }) => url)),
  );
  const kept = new Set(urls.flat().map((url) => new URL(url).pathname));
  for (const item of list.querySelectorAll<HTMLElement>('li')) {
    const href = item.querySelector('a')?.getAttribute('href');
    item.hidden = href === null || href === undefined || !kept.has(href);
  }
  list.hidden = ![...list.querySelectorAll('li')].some((item) => !item.hidden);
}
