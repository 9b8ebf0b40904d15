/** On every page: the button that signs out leaves nothing of a person on a device others use. */
export function watchSignOut(): void {
  const form = document.querySelector<HTMLFormElement>('form[action="/sign-out"]');
  form?.addEventListener('submit', (event) => {
    // answers, a trainer's kit, signed records not sent; where the browser refuses to say, nothing is there,
    // and the form goes its own way
    if (!Object.keys(localStorage).some((name) => /^(here-|learning$)/.test(name))) return;
    event.preventDefault();
    import('./take-leave.ts').then(
      ({ takeLeave }) => takeLeave(form),
      () => form.submit(),
    );
  });
}
