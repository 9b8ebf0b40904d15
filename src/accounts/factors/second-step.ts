import { type Factor, logSecurity } from '../../logging/index.ts';
import { noteSignInChange } from '../note-sign-in-change.ts';
import type { Member } from '../person-with-password.ts';
import { grant, type Outcome, refuseAs } from '../problems.ts';
import { checkPassword } from '../session.ts';
import { readCookie, writeCookie } from '../sessions/index.ts';
import { getSite, type Site } from '../site.ts';
import { hashToken } from '../tokens.ts';
import { enterWith } from './enter.ts';
import { factorsOf } from './factors-of.ts';
import { takeCode } from './one-time-codes.ts';
import { looksLikeRecovery, takeRecoveryCode } from './recovery-codes.ts';

/** Somebody whose password was right, and what their second step can be. */
export type Waiting = Member & { readonly codes: boolean; readonly passkeys: boolean };

/** Whose second step this browser is at, or null: none was begun, or its five minutes are over. */
export async function waitingForStep(
  headers: Headers,
  site?: Site,
  now: Date = new Date(),
): Promise<Waiting | null> {
  const open = site ?? (await getSite());
  const token = readCookie(open, headers, 'step_token');
  if (token === null) return null;
  const row = await open.store.db
    .selectFrom('sign_in_step')
    .innerJoin('membership', 'membership.person', 'sign_in_step.person')
    .select(['membership.person', 'membership.org', 'membership.role'])
    .where('sign_in_step.tokenHash', '=', hashToken(token))
    .where('sign_in_step.expiresAt', '>', now.toISOString())
    .executeTakeFirst();
  if (row === undefined) return null;
  const { codes, passkeys } = await factorsOf(open.store.db, row.person);
  return { ...row, codes, passkeys: passkeys.length > 0 };
}

/** By what somebody came in who typed this after their password. */
export const factorTyped = (code: string): Factor =>
  looksLikeRecovery(code.trim()) ? 'password-and-recovery-code' : 'password-and-code';

/** Checks a one-time code or a recovery code against the lock-out, and uses it up. */
export async function checkSecondCode(
  site: Site,
  { person, org }: Pick<Member, 'person' | 'org'>,
  code: string,
  address: string | null,
  now: Date,
): Promise<Outcome<true>> {
  const { db } = site.store;
  const typed = code.trim();
  const checked = await checkPassword(
    site,
    { email: `second-step:${person}`, address },
    () =>
      looksLikeRecovery(typed)
        ? useRecovery(site, person, org, typed, now)
        : takeCode(site, db, person, typed.replace(/\s/g, ''), 'confirmed', now),
    now,
  );
  if (checked.ok) return checked;
  const { refusal } = checked;
  if (refusal.status !== 429 || refusal.said === undefined) {
    logSecurity('second-step-refused');
    return refuseAs(401, 'code', { key: 'second-step.wrong' });
  }
  const key = refusal.said.key.replace('sign-in.', 'second-step.');
  return refuseAs(429, 'code', { ...refusal.said, key });
}

/** A recovery code that is used up is entered in the log. */
const useRecovery = (site: Site, person: string, org: string, code: string, now: Date) =>
  site.store.write(async ({ db, append }) => {
    if ((await takeRecoveryCode(db, person, code, now)) === null) return null;
    await noteSignInChange({ append }, { person, org }, 'recovery-used', now);
    return true;
  });

/** Takes the second step with a code and returns the cookies of the new session. */
export async function takeSecondStep(
  request: Request,
  code: string,
  address: string | null,
  site?: Site,
  now: Date = new Date(),
): Promise<Outcome<readonly string[]>> {
  const open = site ?? (await getSite());
  const waiting = await waitingForStep(request.headers, open, now);
  if (waiting === null) return refuseAs(401, '', { key: 'second-step.over' });
  const checked = await checkSecondCode(open, waiting, code, address, now);
  if (!checked.ok) return checked;
  return grant(await endStep(open, request.headers, waiting, factorTyped(code), now));
}

async function endStep(
  site: Site,
  headers: Headers,
  member: Member,
  factor: Factor,
  now: Date,
): Promise<readonly string[]> {
  const token = readCookie(site, headers, 'step_token') ?? '';
  await site.store.db
    .deleteFrom('sign_in_step')
    .where('tokenHash', '=', hashToken(token))
    .execute();
  const cookies = await enterWith(factor, site, member, headers, now);
  return [...cookies, writeCookie(site, 'step_token', '', 0)];
}
