import type { Site } from './site.ts';
import type { Role } from './viewer.ts';

export type Member = { readonly person: string; readonly org: string; readonly role: Role };

/** A hash that no password has, in the library's own form: an unknown e-mail costs the same work as a known one. */
const NO_HASH = `${'0'.repeat(32)}:${'0'.repeat(128)}`;

/** The member with this e-mail and password, or null. Takes the same work whether there is one or not. */
export async function personWithPassword(
  { auth, store }: Site,
  email: string,
  password: string,
): Promise<Member | null> {
  const row = await store.db
    .selectFrom('user')
    .innerJoin('membership', 'membership.person', 'user.id')
    .innerJoin('account', 'account.userId', 'user.id')
    .select(['membership.person', 'membership.org', 'membership.role', 'account.password as hash'])
    .where('user.email', '=', email)
    .where('account.providerId', '=', 'credential')
    .executeTakeFirst();
  const hash = row?.hash ?? NO_HASH;
  const isRight = await (await auth.$context).password.verify({ hash, password });
  if (row === undefined || row.hash === null || !isRight) return null;
  return { person: row.person, org: row.org, role: row.role };
}

/** Whether this is the password of a person who is known already. */
export async function hasPassword(
  { auth, store }: Site,
  person: string,
  password: string,
): Promise<true | null> {
  const account = await store.db
    .selectFrom('account')
    .select('password')
    .where('userId', '=', person)
    .where('providerId', '=', 'credential')
    .executeTakeFirst();
  const hash = account?.password ?? NO_HASH;
  return (await (await auth.$context).password.verify({ hash, password })) ? true : null;
}
