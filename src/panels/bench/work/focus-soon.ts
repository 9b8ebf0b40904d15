/** px left above a heading that is brought to the top of its paper. */
const ROOM = 8;
/** ms an element may take to be drawn; its paper may still be on its way over a slow line. */
const PATIENCE = 10_000;

let newest = 0;

/**
 * Moves the keyboard to an element that is about to be drawn, at the top of its own paper, as soon
 * as it is there. A later call takes over from one that still waits.
 */
export function focusSoon(id: string): void {
  newest += 1;
  const mine = newest;
  const until = performance.now() + PATIENCE;
  const look = (): void => {
    if (mine !== newest || focusNow(id) || performance.now() > until) return;
    requestAnimationFrame(look);
  };
  requestAnimationFrame(look);
}

function focusNow(id: string): boolean {
  const element = document.getElementById(id);
  const paper = element?.closest('.bench-paper');
  if (!element || !paper) return false;
  paper.scrollTop += element.getBoundingClientRect().top - paper.getBoundingClientRect().top - ROOM;
  element.focus({ preventScroll: true });
  return document.activeElement === element;
}
