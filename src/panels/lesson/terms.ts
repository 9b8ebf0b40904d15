/** Escape puts the meaning of a trade word away until the word is left (WCAG 2.2, 1.4.13). */
export function startTerms(): void {
  document.addEventListener('keydown', (event) => {
    if (event.key !== 'Escape') return;
    for (const term of document.querySelectorAll<HTMLElement>('.term:hover, .term:focus-within')) {
      term.dataset['put'] = 'away';
    }
  });
  for (const term of document.querySelectorAll<HTMLElement>('.term')) {
    const back = (): void => {
      delete term.dataset['put'];
    };
    term.addEventListener('mouseleave', back);
    term.addEventListener('focusout', back);
    term.addEventListener('mouseenter', () => keepInView(term));
    term.addEventListener('focusin', () => keepInView(term));
  }
}

/** A word near the right edge shows its meaning to the left of it. */
function keepInView(term: HTMLElement): void {
  const { left } = term.getBoundingClientRect();
  const width = document.documentElement.clientWidth;
  const room = Math.min(22 * 18, width - 32);
  term
    .querySelector<HTMLElement>('.term-meaning')
    ?.style.setProperty('left', `${Math.min(0, width - 16 - room - left)}px`);
}
