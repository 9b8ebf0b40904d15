/** Lets a person open a file from their device into the text field it fills, to read it before sending. */
export function openIntoField(): void {
  for (const input of document.querySelectorAll<HTMLInputElement>('input[data-fills]')) {
    const field = document.getElementById(input.dataset['fills'] ?? '');
    input.addEventListener('change', async () => {
      const [file] = input.files ?? [];
      if (file === undefined || !(field instanceof HTMLTextAreaElement)) return;
      field.value = await file.text();
      field.focus();
    });
  }
}
