import { type Factor, logSecurity } from '../../logging/index.ts';
import type { Member } from '../person-with-password.ts';
import { openSession, STEP_S, writeCookie } from '../sessions/index.ts';
import type { Site } from '../site.ts';
import { hashToken, makeToken } from '../tokens.ts';
import { factorsOf } from './factors-of.ts';
import { askedBy, secondStepRule } from './second-step-rule.ts';

/**
 * What follows a proof of who somebody is: the session, a second step first, or a session that is good only for
 * setting one up. A passkey counts as both steps: it is something one has, and was unlocked by its owner.
 */
export async function enterWith(
  proof: Factor,
  site: Site,
  member: Member,
  headers: Headers,
  now: Date,
): Promise<string[]> {
  const { person, org, role } = member;
  if (proof === 'password') {
    const { codes, passkeys } = await factorsOf(site.store.db, person);
    const isAsked = askedBy(await secondStepRule(site, org), role, now) === 'now';
    if (codes || (isAsked && passkeys.length > 0)) {
      logSecurity('second-step-asked');
      return beginStep(site, person, now);
    }
    if (isAsked) {
      logSecurity('signed-in', { factor: proof });
      return openSession(site, { person, role, level: 'enrol' }, headers, now);
    }
  }
  logSecurity('signed-in', { factor: proof });
  return openSession(site, { person, role, level: 'full' }, headers, now);
}

async function beginStep(site: Site, person: string, now: Date): Promise<string[]> {
  const token = makeToken();
  const expiresAt = new Date(now.getTime() + STEP_S * 1000).toISOString();
  await site.store.db
    .insertInto('sign_in_step')
    .values({ tokenHash: hashToken(token), person, expiresAt })
    .execute();
  return [writeCookie(site, 'step_token', token, STEP_S)];
}
