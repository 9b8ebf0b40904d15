import { newId } from '../../records/index.ts';
import { noteSignInChange } from '../note-sign-in-change.ts';
import { grant, type Outcome, refuseAs } from '../problems.ts';
import type { OwnSession } from '../sessions/index.ts';
import type { Site } from '../site.ts';
import { challengeIn } from './challenge-in.ts';
import { makeChallenge, takeChallenge } from './challenges.ts';
import { AttestationSchema, LONGEST_PASSKEY_NAME } from './passkey-answer.ts';
import type { RelyingParty } from './relying-party.ts';

const library = () => import('@simplewebauthn/server');

const MOST_PASSKEYS = 10;

/** What the browser needs to make a passkey for the person of this session. */
export async function offerPasskey(
  site: Site,
  party: RelyingParty,
  { viewer }: OwnSession,
  now: Date = new Date(),
): Promise<object> {
  const { db } = site.store;
  const challenge = await makeChallenge(
    db,
    { purpose: 'add', person: viewer.person, about: '' },
    now,
  );
  const own = await db
    .selectFrom('passkey')
    .select('credential')
    .where('person', '=', viewer.person)
    .execute();
  const { generateRegistrationOptions } = await library();
  return generateRegistrationOptions({
    rpName: 'Signed to Saw',
    rpID: party.id,
    userID: new Uint8Array(Buffer.from(viewer.person, 'utf8')),
    userName: viewer.email,
    userDisplayName: viewer.name,
    challenge: Buffer.from(challenge, 'base64url'),
    // no maker is asked to vouch for its device: it would tell us which one a person has
    attestationType: 'none',
    excludeCredentials: own.map(({ credential }) => ({ id: credential })),
    authenticatorSelection: { residentKey: 'required', userVerification: 'required' },
  });
}

/** Keeps the public half of a passkey that was just made, under a name its owner knows it by. */
export async function addPasskey(
  site: Site,
  party: RelyingParty,
  { viewer }: OwnSession,
  given: { readonly answer: unknown; readonly name: string },
  now: Date = new Date(),
): Promise<Outcome<null>> {
  const { person, org } = viewer;
  const name = given.name.trim();
  if (
    name.length < 1 ||
    name.length > LONGEST_PASSKEY_NAME ||
    /[\p{Cc}\p{Cf}\p{Zl}\p{Zp}]/u.test(name)
  ) {
    return refuseAs(400, 'name', { key: 'passkey.name', put: { most: LONGEST_PASSKEY_NAME } });
  }
  const read = AttestationSchema.safeParse(given.answer);
  if (!read.success) return refuseAs(400, 'passkey', { key: 'passkey.not-made' });
  const challenge = challengeIn(read.data.response.clientDataJSON);
  const asked = { purpose: 'add', person, about: '' } as const;
  if (!(await takeChallenge(site.store.db, challenge, asked, now))) {
    return refuseAs(401, 'passkey', { key: 'passkey.not-made' });
  }
  const { transports, ...response } = read.data.response;
  const { verifyRegistrationResponse } = await library();
  const made = await verifyRegistrationResponse({
    response: { ...read.data, response },
    expectedChallenge: challenge,
    expectedOrigin: party.origin,
    expectedRPID: party.id,
    requireUserVerification: true,
  }).catch(() => null); // forged or torn: not made
  if (made === null || !made.verified) return refuseAs(401, 'passkey', { key: 'passkey.not-made' });
  const { credential } = made.registrationInfo;
  return site.store.write(async ({ db, append }) => {
    const there = await db
      .selectFrom('passkey')
      .select(['person', 'credential'])
      .where((where) =>
        where.or([where('person', '=', person), where('credential', '=', credential.id)]),
      )
      .execute();
    if (there.some((one) => one.credential === credential.id)) {
      return refuseAs(409, 'passkey', { key: 'passkey.there' });
    }
    if (there.length >= MOST_PASSKEYS) {
      return refuseAs(409, 'passkey', { key: 'passkey.most', put: { most: MOST_PASSKEYS } });
    }
    const at = now.toISOString();
    await db
      .insertInto('passkey')
      .values({
        id: newId(),
        credential: credential.id,
        person,
        publicKey: Buffer.from(credential.publicKey).toString('base64url'),
        counter: credential.counter,
        transports: JSON.stringify(transports ?? []),
        name,
        madeAt: at,
        usedAt: null,
      })
      .execute();
    await noteSignInChange({ append }, { person, org }, 'passkey-added', now);
    return grant(null);
  });
}
