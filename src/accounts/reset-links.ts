import type { Kysely, Selectable } from 'kysely';
import { logSecurity } from '../logging/index.ts';
import { newId } from '../records/index.ts';
import type { StoreWrite, Tables } from '../store/index.ts';
import { can } from './can.ts';
import { NewPasswordSchema } from './fields.ts';
import { hashNewPassword, ownWordsOf } from './passwords/hash-new-password.ts';
import { personOf } from './people.ts';
import { grant, type Outcome, refuseAs, refuseForm } from './problems.ts';
import { endSessions } from './sessions/index.ts';
import { writePassword } from './set-password.ts';
import { confirmSignIns } from './sign-in-ticket.ts';
import { getSite, type Site } from './site.ts';
import { hashToken, makeToken } from './tokens.ts';
import type { Role, Viewer } from './viewer.ts';

/** How long a link for a new password works, hours: it is handed over, not sent. */
export const RESET_HOURS = 24;

/** `everything`: passkeys, one-time codes and recovery codes go as well, for somebody who has lost them. */
export type ResetClears = 'password' | 'everything';

export type NewResetLink = { readonly path: string; readonly expires: string };
type ResetRow = Selectable<Tables['reset_link']>;

/** Whether this viewer may make a link for this person: a trainer for trainees, an employer for anybody else. */
export function mayReset(
  viewer: Viewer,
  about: { readonly person: string; readonly role: Role },
): boolean {
  const subject = { org: viewer.org, person: about.person };
  return can(
    viewer,
    about.role === 'trainee' ? 'sign-in.reset-trainee' : 'sign-in.reset-anybody',
    subject,
  );
}

/**
 * Makes the one link with which a person sets a new password: 256 bits of which only the hash is kept. A link made
 * earlier for the same person stops working. Whoever makes it types their own password first. The same form sent
 * again (`id`) makes one entry in the log, and the link told last works.
 */
export async function makeResetLink(
  viewer: Viewer | null,
  asked: {
    readonly id: string;
    readonly person: string;
    readonly clears: ResetClears;
    readonly password: string;
  },
  address: string | null,
  site: Site,
  now: Date = new Date(),
): Promise<Outcome<NewResetLink>> {
  const about = viewer === null ? null : await personOf(viewer.org, asked.person, site);
  if (viewer === null || about === null || !mayReset(viewer, about)) {
    return refuseAs(403, '', { key: 'reset.who' });
  }
  const signedIn = await confirmSignIns(viewer, asked.password, [], address, site, now);
  if (!signedIn.ok) {
    return signedIn.refusal.status === 401
      ? refuseAs(401, 'password', { key: 'reset.password' })
      : signedIn;
  }
  const madeAt = now.toISOString();
  const { id, clears } = asked;
  return site.store.write(async ({ db, append }) => {
    const before = await db
      .selectFrom('reset_link')
      .selectAll()
      .where('id', '=', id)
      .executeTakeFirst();
    if (before !== undefined) {
      const isSame =
        before.madeBy === viewer.person &&
        before.person === about.person &&
        before.clears === clears;
      if (!isSame || before.usedAt !== null || before.endedAt !== null) {
        return refuseAs(409, '', { key: 'reset.again' });
      }
      const token = makeToken();
      await db
        .updateTable('reset_link')
        .set({ tokenHash: hashToken(token) })
        .where('id', '=', id)
        .execute();
      return grant({ path: `/new-password/${token}`, expires: before.expiresAt });
    }
    const link = { id, org: viewer.org, person: about.person, clears, madeBy: viewer.person };
    const made = await replaceLink({ db }, link, now);
    await append({
      id: newId(),
      kind: 'reset-link.made',
      version: 1,
      org: viewer.org,
      at: madeAt,
      by: viewer.person,
      about: about.person,
      body: { link: id, clears },
    });
    return grant(made);
  });
}

/** Keeps a new link for a person, by the hash of its secret, and ends those made earlier; in an open transaction. */
export async function replaceLink(
  { db }: Pick<StoreWrite, 'db'>,
  link: Pick<ResetRow, 'id' | 'org' | 'person' | 'clears' | 'madeBy'>,
  now: Date,
): Promise<NewResetLink> {
  const token = makeToken();
  const madeAt = now.toISOString();
  const expires = new Date(now.getTime() + RESET_HOURS * 3_600_000).toISOString();
  await db
    .updateTable('reset_link')
    .set({ endedAt: madeAt })
    .where('person', '=', link.person)
    .where('usedAt', 'is', null)
    .where('endedAt', 'is', null)
    .execute();
  const kept = { tokenHash: hashToken(token), madeAt, expiresAt: expires };
  const fresh = { endedAt: null, usedAt: null, toldAt: null };
  await db
    .insertInto('reset_link')
    .values({ ...link, ...kept, ...fresh })
    .execute();
  return { path: `/new-password/${token}`, expires };
}

async function findReset(
  db: Kysely<Tables>,
  token: string,
  now: string,
): Promise<Outcome<ResetRow>> {
  const row = await db
    .selectFrom('reset_link')
    .selectAll()
    .where('tokenHash', '=', hashToken(token))
    .executeTakeFirst();
  // looked up by its hash: how long that takes tells nothing of a token that is not known already
  if (row === undefined) return refuseAs(404, '', { key: 'reset.unknown' });
  const isOver = row.usedAt !== null || row.endedAt !== null || row.expiresAt <= now;
  return isOver
    ? refuseAs(410, '', { key: 'reset.over', put: { hours: RESET_HOURS } })
    : grant(row);
}

/** What the link is for, or one sentence why it no longer works. Looking does not use it up, and names nobody. */
export async function readResetLink(
  token: string,
  site?: Site,
  now: Date = new Date(),
): Promise<Outcome<{ readonly clears: ResetClears; readonly expires: string }>> {
  const { store } = site ?? (await getSite());
  const found = await findReset(store.db, token, now.toISOString());
  if (!found.ok) {
    logSecurity('link-refused');
    return found;
  }
  return grant({ clears: found.value.clears, expires: found.value.expiresAt });
}

/** Sets the new password, ends every session of its owner and uses the link up. Signing in comes after. */
export async function useResetLink(
  token: string,
  password: string,
  site?: Site,
  now: Date = new Date(),
): Promise<Outcome<{ readonly person: string }>> {
  const open = site ?? (await getSite());
  const { store } = open;
  const at = now.toISOString();
  const offered = await findReset(store.db, token, at);
  if (!offered.ok) return offered;
  const read = NewPasswordSchema.safeParse({ password });
  if (!read.success) return refuseForm(read.error, 'The form');
  const own = await ownWordsOf(open, offered.value.person);
  const hashed = await hashNewPassword(open, read.data.password, own);
  if (!hashed.ok) return hashed;
  return store.write(async ({ db, append }) => {
    // Looked up again: two people may have the same link open, and one of them gets it.
    const found = await findReset(db, token, at);
    if (!found.ok) return found;
    const { id, org, person, clears } = found.value;
    await db.updateTable('reset_link').set({ usedAt: at }).where('id', '=', id).execute();
    await writePassword({ db }, person, hashed.value);
    if (clears === 'everything') {
      await db.deleteFrom('passkey').where('person', '=', person).execute();
      await db.deleteFrom('code_maker').where('person', '=', person).execute();
      await db.deleteFrom('recovery_code').where('person', '=', person).execute();
    }
    await append({
      id: newId(),
      kind: 'reset-link.used',
      version: 1,
      org,
      at,
      by: person,
      about: person,
      body: { link: id },
    });
    return grant({ person });
  });
}

/** Signs a person out everywhere, for whoever may make a link for them. Returns how many sessions were ended. */
export async function endSessionsOf(
  viewer: Viewer | null,
  person: string,
  site: Site,
): Promise<Outcome<number>> {
  const about = viewer === null ? null : await personOf(viewer.org, person, site);
  if (viewer === null || about === null || !mayReset(viewer, about)) {
    return refuseAs(403, '', { key: 'reset.who' });
  }
  return grant(await endSessions(about.person, null, site));
}

/** That a new password was set by link since the person last said they know. Instants are ISO in UTC. */
export type ResetNews = {
  readonly at: string;
  /** name of who made the link; null when it was printed on the machine of the site */
  readonly by: string | null;
  readonly clears: ResetClears;
};

export async function resetNewsFor(person: string, site: Site): Promise<ResetNews | null> {
  const row = await site.store.db
    .selectFrom('reset_link')
    .leftJoin('user', 'user.id', 'reset_link.madeBy')
    .select(['reset_link.usedAt', 'reset_link.clears', 'user.name'])
    .where('reset_link.person', '=', person)
    .where('reset_link.usedAt', 'is not', null)
    .where('reset_link.toldAt', 'is', null)
    .orderBy('reset_link.usedAt', 'desc')
    .executeTakeFirst();
  return row === undefined ? null : { at: row.usedAt ?? '', by: row.name, clears: row.clears };
}

/** The person says they have read it. */
export async function knowReset(person: string, site: Site, now: Date): Promise<void> {
  await site.store.db
    .updateTable('reset_link')
    .set({ toldAt: now.toISOString() })
    .where('person', '=', person)
    .where('usedAt', 'is not', null)
    .where('toldAt', 'is', null)
    .execute();
}
