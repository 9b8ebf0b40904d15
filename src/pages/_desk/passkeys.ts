import { z } from 'zod';
import {
  addPasskey,
  askForPasskey,
  checkPasskey,
  endSession,
  enterWith,
  type Outcome,
  type OwnSession,
  offerPasskey,
  type RelyingParty,
  refuseAs,
  relyingParty,
  rotateSession,
  type Site,
} from '../../accounts/index.ts';
import type { Done } from './refused.ts';
import { signingHash } from './signing-hash.ts';

const rule = 'must be sign-in, add, fresh or sign';
const digest = z.string().regex(/^[0-9a-f]{64}$/, {
  error: 'must be a SHA-256, 64 hexadecimal digits',
});

const AskSchema = z.object(
  {
    for: z.enum(['sign-in', 'add', 'fresh', 'sign'], { error: rule }),
    /** what is to be signed, when it is for signing: the answer then counts for just these */
    statements: z.array(digest).max(12, { error: 'must list at most 12 statements' }).default([]),
    key: digest.nullable().default(null),
  },
  { error: 'must hold what the passkey is for' },
);

const AnswerSchema = z.object(
  {
    for: z.enum(['sign-in', 'add', 'fresh'], { error: rule }),
    answer: z.unknown(),
    name: z.string({ error: 'must be text' }).max(200, { error: 'must be short' }).default(''),
  },
  { error: 'must hold what the passkey is for, and its answer' },
);

const asDone = <Value>(outcome: Outcome<Value>): Done<Value> =>
  outcome.ok ? outcome : { ok: false, ...outcome.refusal };

const partyOf = (request: Request, site: Site): RelyingParty | null =>
  relyingParty(site, request.headers.get('origin'));

const needsSession = () => asDone(refuseAs(401, '', { key: 'my-sign-in.fresh' }));
const noParty = () => asDone(refuseAs(409, '', { key: 'passkey.where' }));
const badRequest = () => asDone(refuseAs(400, 'for', { key: 'passkey.for' }));

/** What the browser needs to ask for a passkey, or to make one. Adding one needs a sign-in minutes ago. */
export async function askPasskey(
  session: OwnSession | null,
  input: unknown,
  request: Request,
  site: Site,
): Promise<Done<object>> {
  const read = AskSchema.safeParse(input);
  if (!read.success) return badRequest();
  const party = partyOf(request, site);
  if (party === null) return noParty();
  const { for: purpose, statements, key } = read.data;
  if (purpose === 'sign-in') {
    const asked = { purpose, person: null, about: '' } as const;
    return { ok: true, value: await askForPasskey(site, party, asked) };
  }
  if (session === null) return needsSession();
  const { person } = session.viewer;
  if (purpose === 'add') {
    if (!session.fresh) return asDone(refuseAs(403, '', { key: 'my-sign-in.fresh' }));
    return { ok: true, value: await offerPasskey(site, party, session) };
  }
  const about = purpose === 'sign' ? signingHash(statements, key) : session.id;
  return { ok: true, value: await askForPasskey(site, party, { purpose, person, about }) };
}

/** Takes what a passkey answered. Returns the cookies to set: of a new session, or a new token of the old one. */
export async function answerPasskey(
  session: OwnSession | null,
  input: unknown,
  request: Request,
  site: Site,
  now: Date = new Date(),
): Promise<Done<readonly string[]>> {
  const read = AnswerSchema.safeParse(input);
  if (!read.success) return badRequest();
  const party = partyOf(request, site);
  if (party === null) return noParty();
  const { for: purpose, answer, name } = read.data;
  if (purpose === 'sign-in') {
    const asked = { purpose, person: null, about: '' } as const;
    const member = await checkPasskey(site, party, asked, answer, now);
    if (!member.ok) return asDone(member);
    const cleared = await endSession(site, request.headers);
    const entered = await enterWith('passkey', site, member.value, request.headers, now);
    // the session just opened comes last, so that its cookie is the one that stays
    return { ok: true, value: [...cleared, ...entered] };
  }
  if (session === null) return needsSession();
  if (purpose === 'add') {
    if (!session.fresh) return asDone(refuseAs(403, '', { key: 'my-sign-in.fresh' }));
    const added = await addPasskey(site, party, session, { answer, name }, now);
    if (!added.ok) return asDone(added);
    return { ok: true, value: await rotateSession(site, session, 'full', now) };
  }
  const asked = { purpose, person: session.viewer.person, about: session.id };
  const checked = await checkPasskey(site, party, asked, answer, now);
  if (!checked.ok) return asDone(checked);
  return { ok: true, value: await rotateSession(site, session, session.level, now) };
}
