import type { Statement } from '../../records/index.ts';
import { confirmAgain } from './send/confirm-again.ts';
import { signAll } from './sign-all.ts';
import type { DeviceLabel, Logged, Unsent } from './store/kept.ts';
import { unsentOf } from './store/outbox.ts';

/** One practical of one unit, as the sheet of the first form signs it. */
export type SignOutcome =
  | { readonly state: 'logged'; readonly logged: Logged }
  /** signed and kept on this device; the site has not confirmed it */
  | { readonly state: 'signed'; readonly unsent: Unsent; readonly message: string }
  /** nothing was signed, or what was signed does not count */
  | { readonly state: 'refused'; readonly path: string; readonly message: string };

export type SignInput = {
  readonly statement: Statement;
  readonly sheet: unknown;
  readonly sheetKey: string;
  readonly title: string;
  readonly path: string;
  readonly password: string;
  readonly device: DeviceLabel;
};

export async function signPractical(input: SignInput): Promise<SignOutcome> {
  const { statement, sheet, sheetKey, ...rest } = input;
  const outcome = await signAll({
    ...rest,
    units: [{ statement, sheet }],
    sheetKeys: [sheetKey],
  });
  if (outcome.state === 'refused') return outcome;
  const [unit] = outcome.units;
  const message = outcome.state === 'kept' ? outcome.message : '';
  if (unit?.refused != null) return { state: 'refused', path: unit.refused.path, message };
  const unsent = (await unsentOf(statement.trainer.person)).find(
    ({ signoff }) => signoff === statement.signoff,
  );
  if (unsent !== undefined && unit?.logged == null) return { state: 'signed', unsent, message };
  return { state: 'logged', logged: unit?.logged ?? loggedUnseen(statement.signoff) };
}

/** The record is in the log, and another tab has the reply. */
const loggedUnseen = (signoff: string): Logged => ({
  signoff,
  seq: 0,
  state: 'logged',
  received: new Date().toISOString(),
  checkpoint: '',
});

/** Sends again what was signed before, after one more sign-in for the same statement. */
export async function sendAgain(unsent: Unsent, password: string): Promise<SignOutcome> {
  const reply = await confirmAgain({ person: unsent.trainer, password });
  if (!reply.ok) return { state: 'refused', path: reply.path, message: reply.message };
  const logged = reply.value.sent.find(({ signoff }) => signoff === unsent.signoff);
  if (logged !== undefined) return { state: 'logged', logged };
  const left = (await unsentOf(unsent.trainer)).find(({ signoff }) => signoff === unsent.signoff);
  return left === undefined
    ? { state: 'refused', path: '', message: reply.value.message }
    : { state: 'signed', unsent: left, message: reply.value.message };
}
