/** What a person leaves in this browser: answers, a trainer's kit, signed records not sent. */
const LEFT = /^(learning|trainer-here)$|^signed-here/;

function hasLeft(): boolean {
  try {
    return Object.keys(localStorage).some((name) => LEFT.test(name));
  } catch {
    return false;
  }
}

/** On every page: the button that signs out leaves nothing of a person on a device others use. */
export function watchSignOut(): void {
  const form = document.querySelector<HTMLFormElement>('form[action="/sign-out"]');
  form?.addEventListener('submit', (event) => {
    if (!hasLeft()) return;
    event.preventDefault();
    // whatever goes wrong on the way, the person is signed out, unless they chose to stay
    import('./take-leave.ts')
      .then(({ takeLeave }) => takeLeave())
      .then(
        (answer) => answer === 'stay' || form.submit(),
        () => form.submit(),
      );
  });
}
