import { isOutdated, NO_HASH } from './passwords/password-hash.ts';
import type { Site } from './site.ts';
import type { Role } from './viewer.ts';

export type Member = { readonly person: string; readonly org: string; readonly role: Role };

/**
 * Whether the hash kept of somebody is of this password; null: nobody is there, which takes the same work. A right
 * password whose hash is outdated is hashed anew, unless it was changed meanwhile.
 */
async function isOwn(
  { auth, store }: Site,
  owner: { readonly person: string; readonly hash: string | null } | null,
  password: string,
): Promise<boolean> {
  const kept = owner?.hash ?? null;
  const { hash, verify } = (await auth.$context).password;
  const isRight = await verify({ hash: kept ?? NO_HASH, password });
  if (owner === null || kept === null || !isRight) return false;
  if (isOutdated(kept)) {
    await store.db
      .updateTable('account')
      .set({ password: await hash(password), updatedAt: new Date().toISOString() })
      .where('userId', '=', owner.person)
      .where('providerId', '=', 'credential')
      .where('password', '=', kept)
      .execute();
  }
  return true;
}

/** The member with this e-mail and password, or null. Takes the same work whether there is one or not. */
export async function personWithPassword(
  site: Site,
  email: string,
  password: string,
): Promise<Member | null> {
  const row = await site.store.db
    .selectFrom('user')
    .innerJoin('membership', 'membership.person', 'user.id')
    .innerJoin('account', 'account.userId', 'user.id')
    .select(['membership.person', 'membership.org', 'membership.role', 'account.password as hash'])
    .where('user.email', '=', email)
    .where('account.providerId', '=', 'credential')
    .executeTakeFirst();
  if (!(await isOwn(site, row ?? null, password)) || row === undefined) return null;
  return { person: row.person, org: row.org, role: row.role };
}

/** Whether this is the password of a person who is known already. */
export async function hasPassword(
  site: Site,
  person: string,
  password: string,
): Promise<true | null> {
  const account = await site.store.db
    .selectFrom('account')
    .select('password as hash')
    .where('userId', '=', person)
    .where('providerId', '=', 'credential')
    .executeTakeFirst();
  const owner = account === undefined ? null : { person, hash: account.hash };
  return (await isOwn(site, owner, password)) ? true : null;
}
