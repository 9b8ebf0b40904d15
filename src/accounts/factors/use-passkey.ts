import { logSecurity } from '../../logging/index.ts';
import type { Member } from '../person-with-password.ts';
import { grant, type Outcome, refuseAs } from '../problems.ts';
import type { Site } from '../site.ts';
import { challengeIn } from './challenge-in.ts';
import { type Asked, makeChallenge, takeChallenge } from './challenges.ts';
import { AssertionSchema } from './passkey-answer.ts';
import type { RelyingParty } from './relying-party.ts';

// Read when the first passkey is used: the site starts without it.
const library = () => import('@simplewebauthn/server');

const CHALLENGE_MS = 5 * 60_000;

/** What the browser needs to ask for a passkey: of this person, or of whoever has one for this site. */
export async function askForPasskey(
  site: Site,
  party: RelyingParty,
  asked: Asked,
  now: Date = new Date(),
): Promise<object> {
  const { db } = site.store;
  const challenge = await makeChallenge(db, asked, now);
  const own =
    asked.person === null
      ? []
      : await db
          .selectFrom('passkey')
          .select(['credential', 'transports'])
          .where('person', '=', asked.person)
          .execute();
  const { generateAuthenticationOptions } = await library();
  return generateAuthenticationOptions({
    rpID: party.id,
    challenge: Buffer.from(challenge, 'base64url'),
    timeout: CHALLENGE_MS,
    // unlocked by its owner's finger, face or PIN: without that it would be one step, not both
    userVerification: 'required',
    ...(own.length === 0
      ? {}
      : {
          allowCredentials: own.map(({ credential, transports }) => ({
            id: credential,
            transports: JSON.parse(transports) as string[],
          })),
        }),
  });
}

/**
 * Whose passkey answered, when it is a right answer to a challenge of ours that was made for just this and was not
 * answered before. The challenge is used up whether or not the answer is right.
 */
export async function checkPasskey(
  ...given: Parameters<typeof findMember>
): Promise<Outcome<Member>> {
  const found = await findMember(...given);
  const [, , { purpose }] = given;
  if (!found.ok) logSecurity('passkey-refused');
  // what a sign-in comes to is told where the session is opened
  else if (purpose !== 'sign-in') logSecurity('proved-again', { factor: 'passkey' });
  return found;
}

async function findMember(
  site: Site,
  party: RelyingParty,
  asked: Asked,
  answer: unknown,
  now: Date = new Date(),
): Promise<Outcome<Member>> {
  const wrong = refuseAs(401, 'passkey', { key: 'passkey.wrong' });
  const read = AssertionSchema.safeParse(answer);
  if (!read.success) return refuseAs(400, 'passkey', { key: 'passkey.wrong' });
  const { db } = site.store;
  const challenge = challengeIn(read.data.response.clientDataJSON);
  if (!(await takeChallenge(db, challenge, asked, now))) return wrong;
  const row = await db
    .selectFrom('passkey')
    .innerJoin('membership', 'membership.person', 'passkey.person')
    .select(['passkey.id', 'passkey.credential', 'passkey.publicKey', 'passkey.counter'])
    .select(['membership.person', 'membership.org', 'membership.role'])
    .where('passkey.credential', '=', read.data.id)
    .executeTakeFirst();
  if (row === undefined || (asked.person !== null && asked.person !== row.person)) return wrong;
  const { verifyAuthenticationResponse } = await library();
  const verified = await verifyAuthenticationResponse({
    response: read.data,
    expectedChallenge: challenge,
    expectedOrigin: party.origin,
    expectedRPID: party.id,
    credential: {
      id: row.credential,
      publicKey: new Uint8Array(Buffer.from(row.publicKey, 'base64url')),
      counter: row.counter,
    },
    requireUserVerification: true,
  }).catch(() => null); // a forged answer and a torn one are the same to us: not right
  if (verified === null || !verified.verified) return wrong;
  await db
    .updateTable('passkey')
    .set({ counter: verified.authenticationInfo.newCounter, usedAt: now.toISOString() })
    .where('id', '=', row.id)
    .execute();
  return grant({ person: row.person, org: row.org, role: row.role });
}
