import { type Factor, logSecurity } from '../../logging/index.ts';
import { noteSignInChange } from '../note-sign-in-change.ts';
import { hasPassword } from '../person-with-password.ts';
import { grant, type Outcome, refuseAs } from '../problems.ts';
import { checkPassword } from '../session.ts';
import { endSessions, type OwnSession, rotateSession } from '../sessions/index.ts';
import type { Site } from '../site.ts';
import { factorsOf } from './factors-of.ts';
import { beginCodes, takeCode } from './one-time-codes.ts';
import { makeRecoveryCodes } from './recovery-codes.ts';
import { checkSecondCode, factorTyped } from './second-step.ts';
import { askedBy, secondStepRule } from './second-step-rule.ts';

/** The request a change comes with: its address counts wrong tries, its headers say which session goes on. */
export type From = { readonly headers: Headers; readonly address: string | null };

/** What was changed: cookies to set, and recovery codes that are told this once. */
export type Changed = { readonly cookies: readonly string[]; readonly recovery: readonly string[] };

const notFresh = () => refuseAs(403, '', { key: 'my-sign-in.fresh' });

/** Signs in again for a change of how one signs in: the password, and a code where codes are set up. */
export async function signInFresh(
  session: OwnSession,
  given: { readonly password: string; readonly code: string },
  { address }: From,
  site: Site,
  now: Date = new Date(),
): Promise<Outcome<Changed>> {
  const { person, email } = session.viewer;
  const checked = await checkPassword(
    site,
    { email, address },
    () => hasPassword(site, person, given.password),
    now,
  );
  if (!checked.ok) {
    if (checked.refusal.status !== 401) return checked;
    logSecurity('proof-refused');
    return refuseAs(401, 'password', { key: 'my-sign-in.password' });
  }
  let factor: Factor = 'password';
  if ((await factorsOf(site.store.db, person)).codes) {
    const second = await checkSecondCode(site, session.viewer, given.code, address, now);
    if (!second.ok) return second;
    factor = factorTyped(given.code);
  }
  logSecurity('proved-again', { factor });
  return grant({ cookies: await rotateSession(site, session, session.level, now), recovery: [] });
}

/** Begins to set up one-time codes. Nothing changes at sign-in before a first code is typed. */
export async function setUpCodes(
  session: OwnSession,
  organisation: string,
  site: Site,
  now: Date = new Date(),
): Promise<Outcome<null>> {
  if (!session.fresh) return notFresh();
  const { person, email } = session.viewer;
  if ((await factorsOf(site.store.db, person)).codes) {
    return refuseAs(409, '', { key: 'my-sign-in.codes-there' });
  }
  await beginCodes(site, { person, email, organisation }, now);
  return grant(null);
}

/** Puts one-time codes in force by a first code, and makes recovery codes where there are none. */
export async function confirmCodes(
  session: OwnSession,
  code: string,
  site: Site,
  now: Date = new Date(),
): Promise<Outcome<Changed>> {
  if (!session.fresh) return notFresh();
  const { person } = session.viewer;
  const done = await site.store.write(async (write) => {
    const typed = code.replace(/\s/g, '');
    if ((await takeCode(site, write.db, person, typed, 'begun', now)) === null) return null;
    await noteSignInChange(write, session.viewer, 'codes-set-up', now);
    const { recoveryLeft } = await factorsOf(write.db, person);
    if (recoveryLeft > 0) return { recovery: [] };
    return { recovery: await makeRecoveryCodes(write.db, person, now) };
  });
  if (done === null) return refuseAs(401, 'code', { key: 'second-step.wrong' });
  return grant({ ...done, cookies: await rotateSession(site, session, 'full', now) });
}

/** Takes one-time codes or one passkey away, and ends every other session. */
export async function removeFactor(
  session: OwnSession,
  factor: { readonly kind: 'codes' } | { readonly kind: 'passkey'; readonly id: string },
  { headers }: From,
  site: Site,
  now: Date = new Date(),
): Promise<Outcome<Changed>> {
  if (!session.fresh) return notFresh();
  const { person, org, role } = session.viewer;
  const isAsked = askedBy(await secondStepRule(site, org), role, now) === 'now';
  const refusal = await site.store.write(async (write) => {
    const { db } = write;
    const { codes, passkeys } = await factorsOf(db, person);
    if (factor.kind === 'codes' && !codes) return refuseAs(404, '', { key: 'my-sign-in.gone' });
    const last = (codes ? 1 : 0) + passkeys.length <= 1;
    if (isAsked && last) return refuseAs(409, '', { key: 'my-sign-in.last' });
    const removed =
      factor.kind === 'codes'
        ? await db.deleteFrom('code_maker').where('person', '=', person).executeTakeFirst()
        : await db
            .deleteFrom('passkey')
            .where('person', '=', person)
            .where('id', '=', factor.id)
            .executeTakeFirst();
    if (removed.numDeletedRows === 0n) return refuseAs(404, '', { key: 'my-sign-in.gone' });
    // with nothing left to stand in for, what was written down must not open anything either
    if (last) await db.deleteFrom('recovery_code').where('person', '=', person).execute();
    await noteSignInChange(
      write,
      session.viewer,
      factor.kind === 'codes' ? 'codes-removed' : 'passkey-removed',
      now,
    );
    return null;
  });
  if (refusal !== null) return refusal;
  await endSessions(person, headers, site);
  return grant({ cookies: await rotateSession(site, session, session.level, now), recovery: [] });
}

/** New recovery codes; the earlier ones stop working. */
export async function renewRecovery(
  session: OwnSession,
  site: Site,
  now: Date = new Date(),
): Promise<Outcome<Changed>> {
  if (!session.fresh) return notFresh();
  const { person } = session.viewer;
  const { codes, passkeys } = await factorsOf(site.store.db, person);
  if (!codes && passkeys.length === 0) return refuseAs(409, '', { key: 'my-sign-in.nothing-yet' });
  const recovery = await site.store.write(async (write) => {
    await noteSignInChange(write, session.viewer, 'recovery-made', now);
    return makeRecoveryCodes(write.db, person, now);
  });
  return grant({ cookies: [], recovery });
}
