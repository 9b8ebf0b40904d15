/** Narrower than this the papers lie under the bench; the style sheets name the same width. */
const PHONE = '(max-width: 43.99rem)';

export const isPhone = (): boolean => matchMedia(PHONE).matches;

/** Tells the layout how tall the page's header is, so that the bench takes exactly the rest of the screen. */
export function fitScreen(root: HTMLElement): void {
  const header = document.querySelector<HTMLElement>('.frame > header');
  if (header === null) return;
  const measure = (): void => root.style.setProperty('--head', `${header.offsetHeight}px`);
  measure();
  new ResizeObserver(measure).observe(header);
}

/** Brings an element's top edge to the top of the screen, whatever room the page leaves above targets. */
export function scrollToTop(element: HTMLElement | null): void {
  if (element === null) return;
  window.scrollTo({ top: window.scrollY + element.getBoundingClientRect().top });
}
