import { logSecurity } from '../logging/index.ts';
import type { EventDraft } from '../records/index.ts';
import type { Appended, StoreWrite } from '../store/index.ts';
import { hasPassword } from './person-with-password.ts';
import { grant, type Outcome, refuse, refuseAs } from './problems.ts';
import { checkPassword } from './session.ts';
import { getSite, type Site } from './site.ts';
import { hashToken, makeToken } from './tokens.ts';
import type { Viewer } from './viewer.ts';

/** How long a fresh sign-in counts for a signature, minutes. */
export const TICKET_MINUTES = 5;

export type Ticket = { readonly ticket: string; readonly expires: string };
export type Tickets = { readonly tickets: readonly string[]; readonly expires: string };

/**
 * Signs in again, for one signature: the password of the person who is signed in, and the SHA-256 (64
 * hexadecimal digits) of the canonical bytes of the statement they are looking at. The ticket works once,
 * for five minutes, for this person and this statement.
 */
export async function confirmSignIn(
  viewer: Viewer,
  password: string,
  statementHash: string,
  address: string | null = null,
  site?: Site,
  now: Date = new Date(),
): Promise<Outcome<Ticket>> {
  const given = await confirmSignIns(viewer, password, [statementHash], address, site, now);
  if (!given.ok) return given;
  const { tickets, expires } = given.value;
  return grant({ ticket: tickets[0] ?? '', expires });
}

/**
 * Signs in again once, for several signatures: a ticket of its own for each statement, in their order. With
 * none, only the password is checked.
 */
export async function confirmSignIns(
  viewer: Viewer,
  password: string,
  statementHashes: readonly string[],
  address: string | null = null,
  site?: Site,
  now: Date = new Date(),
): Promise<Outcome<Tickets>> {
  if (statementHashes.some((hash) => !/^[0-9a-f]{64}$/.test(hash))) {
    return refuse(
      400,
      'statement',
      'statement must be the SHA-256 of what you sign, 64 hexadecimal digits.',
    );
  }
  const open = site ?? (await getSite());
  const checked = await checkPassword(
    open,
    { email: viewer.email, address },
    () => hasPassword(open, viewer.person, password),
    now,
  );
  if (!checked.ok) {
    if (checked.refusal.status !== 401) return checked;
    logSecurity('proof-refused');
    return refuseAs(401, 'password', { key: 'sign-in.own' });
  }
  logSecurity('proved-again', { factor: 'password' });
  return grant(await giveTickets(open, viewer, statementHashes, now));
}

/** A ticket for each statement, in their order. Only for somebody who has just proved who they are. */
export async function giveTickets(
  site: Site,
  viewer: Viewer,
  statementHashes: readonly string[],
  now: Date = new Date(),
): Promise<Tickets> {
  const expires = new Date(now.getTime() + TICKET_MINUTES * 60_000).toISOString();
  const made = statementHashes.map((statementHash) => ({ statementHash, ticket: makeToken() }));
  if (made.length > 0) {
    await site.store.db
      .insertInto('sign_in_ticket')
      .values(
        made.map(({ statementHash, ticket }) => ({
          ticketHash: hashToken(ticket),
          person: viewer.person,
          statementHash,
          expiresAt: expires,
          usedAt: null,
        })),
      )
      .execute();
  }
  return { tickets: made.map(({ ticket }) => ticket), expires };
}

async function spendTicket(
  { db }: StoreWrite,
  viewer: Viewer,
  ticket: string,
  statementHash: string,
  now: string,
): Promise<boolean> {
  const spent = await db
    .updateTable('sign_in_ticket')
    .set({ usedAt: now })
    .where('ticketHash', '=', hashToken(ticket))
    .where('person', '=', viewer.person)
    .where('statementHash', '=', statementHash)
    .where('usedAt', 'is', null)
    .where('expiresAt', '>', now)
    .executeTakeFirst();
  return spent.numUpdatedRows === 1n;
}

/**
 * Where the signer signed in afresh: on the site, for which there is a ticket; or on an enrolled device that
 * had no network, for which the device alone stands and the record says so.
 */
export type SignInProof =
  | { readonly place?: 'site'; readonly ticket: string | null; readonly statementHash: string }
  | { readonly place: 'device' };

/**
 * Enters a signed event together with the spending of its ticket, in one transaction: a ticket is never
 * spent for a signature that was not kept. The same event sent again gives the same answer and needs no
 * second ticket.
 * @param proof `holds`: looked at inside the transaction, before the entry is kept; where it says no, what the
 * person looked at has changed meanwhile
 * @throws EventRefused, IdConflict
 */
export async function appendSigned(
  viewer: Viewer,
  draft: EventDraft,
  proof: SignInProof & { readonly holds?: (write: StoreWrite) => Promise<boolean> },
  site?: Site,
  now: Date = new Date(),
): Promise<Outcome<Appended>> {
  const { store } = site ?? (await getSite());
  const stale = new Error('The ticket does not hold.');
  const changed = new Error('What was looked at has changed.');
  try {
    return await store.write(async (write) => {
      const { holds } = proof;
      const isStill = holds === undefined || (await holds(write));
      const appended = await write.append(draft);
      if (appended.state === 'repeat') return grant(appended);
      if (!isStill) throw changed; // undoes the entry
      if (proof.place === 'device') return grant(appended);
      const { ticket, statementHash } = proof;
      const isSpent =
        ticket !== null &&
        (await spendTicket(write, viewer, ticket, statementHash, now.toISOString()));
      if (!isSpent) throw stale; // undoes the entry
      return grant(appended);
    });
  } catch (error) {
    if (error === changed) return refuseAs(409, '', { key: 'sign-in.changed' });
    if (error !== stale) throw error;
    logSecurity('ticket-refused');
    return refuseAs(403, 'ticket', { key: 'sign-in.ticket', put: { minutes: TICKET_MINUTES } });
  }
}
