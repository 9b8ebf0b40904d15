import { publicJwkOf, SignoffError, signStatement } from '../../records/check/index.ts';
import type { Statement } from '../../records/index.ts';
import { deviceKeyOf, dropKey, markEnrolled } from './device-key.ts';
import {
  type DeviceKey,
  type DeviceLabel,
  keepCheckpoint,
  keepUnsent,
  settleUnsent,
  type Unsent,
} from './device-store.ts';
import { enrolmentHash, statementHashOf } from './enrolment-hash.ts';
import { postJson, type Reply } from './post-json.ts';

/** What the site says once a signed record stands in its log. */
export type Logged = {
  readonly signoff: string;
  /** place in the log, from 0 */
  readonly seq: number;
  readonly state: 'logged' | 'repeat';
  readonly received: string;
  /** newest signed head of the log */
  readonly checkpoint: string;
};

type Tickets = { readonly ticket: string; readonly enrolTicket: string | null };

export type SignOutcome =
  | { readonly state: 'logged'; readonly logged: Logged }
  /** signed and kept on this device; the site has not confirmed it */
  | { readonly state: 'signed'; readonly unsent: Unsent; readonly message: string }
  /** nothing was signed, or what was signed does not count; the sheet is still there */
  | { readonly state: 'refused'; readonly path: string; readonly message: string };

export type SignInput = {
  readonly statement: Statement;
  /** the checked sheet, from which the site writes the statement again */
  readonly sheet: unknown;
  readonly sheetKey: string;
  readonly title: string;
  readonly path: string;
  readonly password: string;
  readonly device: DeviceLabel;
};

const refused = (reply: { readonly path: string; readonly message: string }): SignOutcome => ({
  state: 'refused',
  path: reply.path,
  message: reply.message,
});

const confirm = (password: string, statementHash: string, key: DeviceKey | null) =>
  postJson<Tickets>('/api/practicals/confirm', {
    password,
    statement: statementHash,
    key: key === null || key.enrolled ? null : enrolmentHash(key.keyId),
  });

async function enrol(
  key: DeviceKey,
  label: DeviceLabel,
  ticket: string | null,
): Promise<Reply<unknown>> {
  if (key.enrolled || ticket === null) return { ok: true, value: null };
  const reply = await postJson('/api/device-keys', {
    keyId: key.keyId,
    publicKey: publicJwkOf(key.publicKey),
    label,
    ticket,
  });
  if (reply.ok) await markEnrolled(key, 'enrolled');
  return reply;
}

/** Not reached, too busy, signed out, or the fresh sign-in ran out: what was signed still holds. */
const isForNow = ({ status, path }: { readonly status: number; readonly path: string }): boolean =>
  status === 0 || status >= 500 || [401, 408, 429].includes(status) || path === 'ticket';

/** Sends a signed record, and lets go of it only when the site has it in its log. */
async function send(unsent: Unsent, ticket: string): Promise<SignOutcome> {
  const reply = await postJson<Logged>('/api/practicals', {
    ...(unsent.request as object),
    ticket,
  });
  if (reply.ok) {
    await settleUnsent(unsent, 'nothing');
    await keepCheckpoint(reply.value.checkpoint, reply.value.received);
    return { state: 'logged', logged: reply.value };
  }
  if (isForNow(reply)) {
    return { state: 'signed', unsent, message: reply.message };
  }
  await settleUnsent(unsent, 'sheet');
  return refused(reply);
}

/**
 * The whole of signing: sign in again for exactly this statement, enrol this device when it is new,
 * sign on the device, keep the signed record, and only then send it.
 */
export async function signPractical(input: SignInput): Promise<SignOutcome> {
  const { statement, sheet, sheetKey, title, path, password, device } = input;
  const trainer = statement.trainer.person;
  const key = await deviceKeyOf(trainer);
  const statementHash = statementHashOf(statement);
  const tickets = await confirm(password, statementHash, key);
  if (!tickets.ok) return refused(tickets);
  const enrolled = await enrol(key, device, tickets.value.enrolTicket);
  if (!enrolled.ok) {
    // the log has ended this key, or it is somebody else's: the next try makes a new one
    if (enrolled.path === 'keyId') await dropKey(key);
    return refused(enrolled);
  }
  try {
    const body = await signStatement(statement, key);
    const at = new Date().toISOString();
    const event = {
      id: statement.signoff,
      kind: 'practical.signed',
      version: 1,
      org: statement.org,
      at,
      by: trainer,
      about: statement.who.person,
      body,
    };
    const request = { event, sheet };
    const unsent: Unsent = {
      signoff: statement.signoff,
      sheetKey,
      title,
      path,
      trainer,
      signedAt: at,
      request,
      statementHash,
    };
    await keepUnsent(unsent);
    const outcome = await send(unsent, tickets.value.ticket);
    // a site that does not know the key was put back from an older copy: enrol it again next time
    if (outcome.state === 'refused' && outcome.path === 'keyId') await markEnrolled(key, 'not');
    return outcome;
  } catch (error) {
    if (error instanceof SignoffError) return refused({ path: '', message: error.message });
    throw error;
  }
}

/** Sends again what was signed before, after one more sign-in for the same statement. */
export async function sendAgain(unsent: Unsent, password: string): Promise<SignOutcome> {
  const tickets = await confirm(password, unsent.statementHash, null);
  if (!tickets.ok) return refused(tickets);
  return send(unsent, tickets.value.ticket);
}
