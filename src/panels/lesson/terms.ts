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

/** A word near the far edge shows its meaning nearer the start of the line. */
function keepInView(term: HTMLElement): void {
  const { left, right } = term.getBoundingClientRect();
  const width = document.documentElement.clientWidth;
  const isRightToLeft = document.documentElement.dir === 'rtl';
  const before = isRightToLeft ? width - right : left;
  const room = Math.min(22 * 18, width - 32);
  term
    .querySelector<HTMLElement>('.term-meaning')
    ?.style.setProperty('inset-inline-start', `${Math.min(0, width - 16 - room - before)}px`);
}
