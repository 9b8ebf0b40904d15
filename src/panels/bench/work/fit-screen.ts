/** Narrower than this the papers lie under the bench; the style sheets name the same width. */
const NARROW = '(max-width: 43.99rem)';
/** On a phone, upright or on its side, the bench takes the whole screen, header and all. */
const SMALL = `${NARROW}, (max-height: 32rem)`;

export const isNarrow = (): boolean => matchMedia(NARROW).matches;
export const isSmall = (): boolean => matchMedia(SMALL).matches;

/**
 * Tells the layout how tall the page's header is, so that the bench takes exactly the rest of the
 * screen; where the header is scrolled past, it stays past when its height changes.
 */
export function fitScreen(root: HTMLElement): void {
  const header = document.querySelector<HTMLElement>('.frame > header');
  if (header === null) return;
  let height = header.offsetHeight;
  const measure = (): void => {
    const grown = header.offsetHeight - height;
    height = header.offsetHeight;
    root.style.setProperty('--head', `${height}px`);
    if (grown !== 0 && isSmall() && window.scrollY > 0) window.scrollBy({ top: grown });
  };
  measure();
  new ResizeObserver(measure).observe(header);
}

/** Brings an element's top edge to the top of the screen, whatever room the page leaves above targets. */
export function scrollToTop(element: HTMLElement | null): void {
  if (element === null) return;
  window.scrollTo({ top: window.scrollY + element.getBoundingClientRect().top });
}
