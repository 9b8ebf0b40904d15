import { grant, type Outcome, refuseAs } from '../problems.ts';
import type { Site } from '../site.ts';
import { isCommonPassword } from './common-passwords.ts';
import { isMadeOfOwnWords } from './own-words.ts';

/** What a password must not be made of: names and addresses of its owner and their workshop. */
export type OwnWords = readonly string[];

/**
 * The hash of a new password whose length was looked at already, or one sentence why it is too easy to guess. A
 * password of many figures and no words is judged by the list alone.
 */
export async function hashNewPassword(
  { auth }: Pick<Site, 'auth'>,
  password: string,
  own: OwnWords,
): Promise<Outcome<string>> {
  const put = { field: 'password' };
  if (isMadeOfOwnWords(password, own)) {
    return refuseAs(400, 'password', { key: 'rule.password-own', put });
  }
  if (await isCommonPassword(password)) {
    return refuseAs(400, 'password', { key: 'rule.password-common', put });
  }
  return grant(await (await auth.$context).password.hash(password));
}

/** The names and the address of somebody who is here already, as words no password of theirs may be made of. */
export async function ownWordsOf(
  { store }: Pick<Site, 'store'>,
  person: string,
): Promise<OwnWords> {
  const row = await store.db
    .selectFrom('user')
    .innerJoin('membership', 'membership.person', 'user.id')
    .innerJoin('organisation', 'organisation.id', 'membership.org')
    .select(['user.name', 'user.email', 'organisation.name as workshop'])
    .where('user.id', '=', person)
    .executeTakeFirst();
  return row === undefined ? [] : [row.name, row.email, row.workshop];
}
