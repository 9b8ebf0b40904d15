/** Every button that asks for it prints the page. */
export function printOnAsking(): void {
  for (const button of document.querySelectorAll<HTMLElement>('[data-print]')) {
    button.addEventListener('click', () => window.print());
  }
}
