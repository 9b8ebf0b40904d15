import english from '../../../content/messages/en/signing.json' with { type: 'json' };
import { learnSheets, sayFrom } from '../../words/spoken.ts';
import { exchange, leaveDevice as leaveAnswers } from '../lesson/book/index.ts';
import { keptKit, leaveDevice, sendNow, waitingOf, whoIsHere } from '../signing/index.ts';

const say = sayFrom('signing', english);

/** Longest that signing out waits for something to be sent, ms. */
const PATIENCE = 3000;
const withPatience = (work: Promise<unknown>): Promise<unknown> =>
  Promise.race([work.catch(() => null), new Promise((wake) => setTimeout(wake, PATIENCE))]);

const hasAnswers = (): boolean => localStorage.getItem('learning') !== null;

/** Tells of signed records that are not sent, and asks whether to sign out all the same. */
async function asksToStay(person: string): Promise<boolean> {
  if ((await waitingOf(person)) === 0) return false;
  await withPatience(sendNow());
  const count = await waitingOf(person);
  if (count === 0) return false;
  await learnSheets('signing');
  return !window.confirm(say.count('leave', count));
}

/**
 * Sends what has not been sent, and takes the person's answers, and a trainer's kit, password check and
 * drafts, off this device; then signs out. Signed records stay until the site has them.
 */
export async function takeLeave(form: HTMLFormElement): Promise<void> {
  // whatever goes wrong on the way, the person is signed out, unless they chose to stay
  if ((await clearDevice().catch(() => 'go')) === 'go') form.submit();
}

async function clearDevice(): Promise<'go' | 'stay'> {
  const person = (await whoIsHere()) ?? (await keptKit().catch(() => null))?.trainer.person;
  if (person !== undefined && (await asksToStay(person).catch(() => false))) return 'stay';
  if (person !== undefined) await leaveDevice(person).catch(() => undefined);
  if (hasAnswers()) {
    await withPatience(exchange());
    leaveAnswers();
  }
  return 'go';
}
