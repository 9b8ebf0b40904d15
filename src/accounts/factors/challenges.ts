import type { Kysely } from 'kysely';
import type { Tables } from '../../store/index.ts';
import { hashToken, makeToken } from '../tokens.ts';

/** How long a passkey may take to answer, minutes. */
export const CHALLENGE_MINUTES = 5;
/** Most challenges of strangers kept at once; beyond it the older half goes. */
const MOST_OF_STRANGERS = 2_000;

/** What an answer is for: one made for one of these is worth nothing for another. */
export type ChallengeFor = 'sign-in' | 'add' | 'fresh' | 'sign';

/** `person`: who has to answer, null for anybody. `about`: what beside the purpose, such as a hash of what is signed. */
export type Asked = {
  readonly purpose: ChallengeFor;
  readonly person: string | null;
  readonly about: string;
};

/** Makes a challenge of 256 bits and keeps its hash for five minutes. */
export async function makeChallenge(db: Kysely<Tables>, asked: Asked, now: Date): Promise<string> {
  await dropOld(db, now);
  const challenge = makeToken();
  const expiresAt = new Date(now.getTime() + CHALLENGE_MINUTES * 60_000).toISOString();
  await db
    .insertInto('passkey_challenge')
    .values({ challengeHash: hashToken(challenge), ...asked, expiresAt })
    .execute();
  return challenge;
}

/** Uses a challenge up. Whether it was ours, for this, and not used yet: of two answers one counts. */
export async function takeChallenge(
  db: Kysely<Tables>,
  challenge: string,
  { purpose, person, about }: Asked,
  now: Date,
): Promise<boolean> {
  const taken = await db
    .deleteFrom('passkey_challenge')
    .where('challengeHash', '=', hashToken(challenge))
    .where('purpose', '=', purpose)
    .where('person', person === null ? 'is' : '=', person)
    .where('about', '=', about)
    .where('expiresAt', '>', now.toISOString())
    .executeTakeFirst();
  return taken.numDeletedRows === 1n;
}

async function dropOld(db: Kysely<Tables>, now: Date): Promise<void> {
  await db.deleteFrom('passkey_challenge').where('expiresAt', '<=', now.toISOString()).execute();
  const strangers = () => db.selectFrom('passkey_challenge').where('person', 'is', null);
  const last = await strangers()
    .select('expiresAt')
    .orderBy('expiresAt', 'desc')
    .offset(MOST_OF_STRANGERS)
    .limit(1)
    .executeTakeFirst();
  if (last === undefined) return;
  const half = await strangers()
    .select('expiresAt')
    .orderBy('expiresAt', 'desc')
    .offset(MOST_OF_STRANGERS / 2)
    .limit(1)
    .executeTakeFirstOrThrow();
  await db
    .deleteFrom('passkey_challenge')
    .where('person', 'is', null)
    .where('expiresAt', '<=', half.expiresAt)
    .execute();
}
