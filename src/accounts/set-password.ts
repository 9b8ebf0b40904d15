import { logSecurity } from '../logging/index.ts';
import type { StoreWrite } from '../store/index.ts';
import { NewPasswordSchema } from './fields.ts';
import { noteSignInChange } from './note-sign-in-change.ts';
import { hashNewPassword, ownWordsOf } from './passwords/hash-new-password.ts';
import { hasPassword } from './person-with-password.ts';
import { grant, type Outcome, refuseAs, refuseForm } from './problems.ts';
import { checkPassword } from './session.ts';
import { endSessions, type OwnSession, rotateSession } from './sessions/index.ts';
import type { Site } from './site.ts';

/** Writes a password down and ends every session and half sign-in of its owner, in an open transaction. */
export async function writePassword(
  { db }: Pick<StoreWrite, 'db'>,
  person: string,
  passwordHash: string,
): Promise<void> {
  await db
    .updateTable('account')
    .set({ password: passwordHash, updatedAt: new Date().toISOString() })
    .where('userId', '=', person)
    .where('providerId', '=', 'credential')
    .execute();
  await db.deleteFrom('session').where('userId', '=', person).execute();
  await db.deleteFrom('sign_in_step').where('person', '=', person).execute();
}

/** Gives a person a new password and ends every session they have. */
export async function setPassword(
  site: Site,
  person: string,
  password: string,
): Promise<Outcome<null>> {
  const read = NewPasswordSchema.safeParse({ password });
  if (!read.success) {
    return refuseForm(read.error, 'The form');
  }
  const own = await ownWordsOf(site, person);
  const hashed = await hashNewPassword(site, read.data.password, own);
  if (!hashed.ok) return hashed;
  await site.store.write((write) => writePassword(write, person, hashed.value));
  return grant(null);
}

/**
 * Changes one's own password: needs the one in force, ends every other session and gives this one a new token.
 * Returns the cookies to set.
 */
export async function changePassword(
  session: OwnSession,
  given: { readonly current: string; readonly password: string },
  from: { readonly headers: Headers; readonly address: string | null },
  site: Site,
  now: Date = new Date(),
): Promise<Outcome<readonly string[]>> {
  const { person, org, email } = session.viewer;
  const read = NewPasswordSchema.safeParse({ password: given.password });
  if (!read.success) return refuseForm(read.error, 'The form');
  const checked = await checkPassword(
    site,
    { email, address: from.address },
    () => hasPassword(site, person, given.current),
    now,
  );
  if (!checked.ok) {
    const { refusal } = checked;
    if (refusal.status !== 401) return { ok: false, refusal: { ...refusal, path: 'current' } };
    logSecurity('proof-refused');
    return refuseAs(401, 'current', { key: 'my-sign-in.current' });
  }
  const hashed = await hashNewPassword(site, read.data.password, await ownWordsOf(site, person));
  if (!hashed.ok) return hashed;
  await site.store.write(async ({ db, append }) => {
    await db
      .updateTable('account')
      .set({ password: hashed.value, updatedAt: now.toISOString() })
      .where('userId', '=', person)
      .where('providerId', '=', 'credential')
      .execute();
    await noteSignInChange({ append }, { person, org }, 'password', now);
  });
  await endSessions(person, from.headers, site);
  return grant(await rotateSession(site, session, session.level, now));
}
