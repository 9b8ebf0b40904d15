const KEY = 'rules';

function readChoice(): string | null {
  try {
    return localStorage.getItem(KEY);
  } catch {
    return null;
  }
}

/** Shows the chosen limit set alone, and remembers which. Without it all stand below each other. */
export function startRules(): void {
  for (const box of document.querySelectorAll<HTMLElement>('[data-rules]')) {
    const inputs = [...box.querySelectorAll<HTMLInputElement>('input[name="rules"]')];
    const kept = inputs.find((input) => input.value === readChoice());
    if (kept) kept.checked = true;
    const show = (): void => {
      const chosen = inputs.find((input) => input.checked)?.value;
      for (const section of box.querySelectorAll<HTMLElement>('[data-rules-of]')) {
        section.hidden = section.dataset['rulesOf'] !== chosen;
      }
    };
    show();
    for (const input of inputs) {
      input.addEventListener('change', () => {
        show();
        // storage may be refused; the choice then lasts for this page
        try {
          localStorage.setItem(KEY, input.value);
        } catch {}
      });
    }
  }
}
