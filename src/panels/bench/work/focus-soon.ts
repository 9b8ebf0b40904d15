/** px left above a heading that is brought to the top of its paper. */
const ROOM = 8;

/** Moves the keyboard to an element that is about to be drawn, at the top of its own paper. */
export function focusSoon(id: string): void {
  requestAnimationFrame(() => {
    const element = document.getElementById(id);
    const paper = element?.closest('.bench-paper');
    if (!element || !paper) return;
    paper.scrollTop +=
      element.getBoundingClientRect().top - paper.getBoundingClientRect().top - ROOM;
    element.focus({ preventScroll: true });
  });
}
