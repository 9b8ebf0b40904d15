/** Moves the keyboard to an element that is about to be drawn. */
export function focusSoon(id: string): void {
  requestAnimationFrame(() => document.getElementById(id)?.focus());
}
