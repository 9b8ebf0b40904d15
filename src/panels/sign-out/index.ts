/** Longest that signing out waits for answers to be sent, ms. */
const PATIENCE = 3000;

const hasAnswers = (): boolean => {
  try {
    return localStorage.getItem('learning') !== null;
  } catch {
    return false;
  }
};

/** Sends what has not been sent and takes the person's answers off this device, before signing out. */
async function takeLeave(): Promise<void> {
  const { exchange, leaveDevice } = await import('../lesson/book/index.ts');
  await Promise.race([exchange(), new Promise((wake) => setTimeout(wake, PATIENCE))]);
  leaveDevice();
}

/** On every page: the button that signs out leaves nothing of a person on a device others use. */
export function watchSignOut(): void {
  const form = document.querySelector<HTMLFormElement>('form[action="/sign-out"]');
  form?.addEventListener('submit', (event) => {
    if (!hasAnswers()) return;
    event.preventDefault();
    // whatever goes wrong with the answers, the person is signed out
    takeLeave().then(
      () => form.submit(),
      () => form.submit(),
    );
  });
}
