import { z } from 'zod';
import {
  appendSigned,
  confirmSignIn,
  grant,
  type RelyingParty,
  type Site,
  type Viewer,
} from '../../../accounts/index.ts';
import { isEventRefused, isIdConflict } from '../../../store/index.ts';
import { confirmByPasskey } from '../confirm-by-passkey.ts';
import { type Done, refused } from '../refused.ts';
import { markLog } from './log-mark.ts';
import { reviewAuthorisation } from './review.ts';
import { refusedHere } from './words.ts';

const SignSchema = z.object({
  /** hash of the text the person looked at */
  seen: z.string().regex(/^[0-9a-f]{64}$/, { error: 'bad.seen' }),
  password: z.string().max(128, { error: 'bad.password' }),
  /** what a passkey answered, as JSON; empty when the password signs */
  passkey: z.string().max(16_384, { error: 'bad.password' }).default(''),
});

/** How a giver signs in afresh, and from where. */
export type LeaveSigning = {
  /** hash of the text that was looked at */
  readonly seen: string;
  readonly password: string;
  /** JSON of what a passkey answered, in place of the password */
  readonly passkey?: string;
  readonly address: string | null;
  /** whom a passkey has to be for; null where there can be none */
  readonly party?: RelyingParty | null;
};

export type Given = { readonly id: string };

/** Already entered under this id by the same person: pressing twice gives once. */
async function givenBefore(viewer: Viewer, id: string, site: Site): Promise<boolean> {
  const stored = await site.store.event(id);
  const event = stored?.event ?? null;
  return (
    event?.kind === 'authorisation.given' && event.by === viewer.person && event.org === viewer.org
  );
}

/** The ticket for one text, by a passkey that was asked about just this text. */
async function ticketByPasskey(
  viewer: Viewer,
  passkey: string,
  hash: string,
  party: RelyingParty | null,
  site: Site,
) {
  let answer: unknown = null;
  try {
    answer = JSON.parse(passkey);
  } catch {
    // refused below like any other answer that is none
  }
  const signed = await confirmByPasskey(viewer, answer, { hashes: [hash], key: null }, party, site);
  return signed.ok ? grant({ ticket: signed.value.tickets[0] ?? '' }) : signed;
}

/**
 * Gives leave in writing: the form written out again must be the text that was looked at, signed in afresh
 * with a password or a passkey, and nothing that bears on it may have come between.
 */
export async function giveAuthorisation(
  viewer: Viewer | null,
  input: unknown,
  sign: LeaveSigning,
  site: Site,
  now: Date = new Date(),
): Promise<Done<Given>> {
  if (viewer === null) return refusedHere(401, '', 'authorisation.signed-out');
  const id = String((input as { id?: unknown } | null)?.id ?? '');
  if (z.uuidv7().safeParse(id).success && (await givenBefore(viewer, id, site))) {
    return { ok: true, value: { id } };
  }
  const reviewed = await reviewAuthorisation(viewer, input, site, now);
  if (!reviewed.ok) return reviewed;
  const read = SignSchema.safeParse(sign);
  if (!read.success) {
    const isSeen = read.error.issues[0]?.message === 'bad.seen';
    return isSeen
      ? refusedHere(409, 'seen', 'authorisation.changed')
      : refusedHere(400, 'password', 'authorisation.bad.password');
  }
  const { statement, hash, mark } = reviewed.value;
  const { password, passkey } = read.data;
  if (password === '' && passkey === '') {
    return refusedHere(400, 'password', 'authorisation.bad.password');
  }
  const subjects = [statement.who.person, statement.bench.id];
  if (read.data.seen !== hash) return refusedHere(409, 'seen', 'authorisation.changed');
  const signed =
    passkey === ''
      ? await confirmSignIn(viewer, password, hash, sign.address, site, now)
      : await ticketByPasskey(viewer, passkey, hash, sign.party ?? null, site);
  if (!signed.ok) return { ok: false, ...signed.refusal, path: 'password' };
  try {
    const entered = await appendSigned(
      viewer,
      {
        id: statement.id,
        kind: 'authorisation.given',
        version: 1,
        org: viewer.org,
        at: now.toISOString(),
        by: viewer.person,
        about: statement.who.person,
        body: { statement },
      },
      {
        ticket: signed.value.ticket,
        statementHash: hash,
        holds: async (write) => (await markLog(viewer.org, subjects, write)) === mark,
      },
      site,
      now,
    );
    if (!entered.ok) return { ok: false, ...entered.refusal };
    return { ok: true, value: { id: statement.id } };
  } catch (error) {
    // the same form sent twice at once: the other one was entered first
    if (isIdConflict(error) && (await givenBefore(viewer, id, site))) {
      return { ok: true, value: { id } };
    }
    if (isIdConflict(error)) return refused(422, 'id', error.message);
    if (isEventRefused(error)) return refused(422, error.problem.path, error.problem.message);
    throw error;
  }
}
