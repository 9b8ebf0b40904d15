import { afterEach, beforeEach, describe, expect, it } from 'vitest';
import {
  codeAt,
  codesBegun,
  confirmCodes,
  factorsOf,
  ownSessionOf,
  removeFactor,
  renewRecovery,
  setUpCodes,
  signIn,
  signInFresh,
  takeSecondStep,
  type Viewer,
  viewerOf,
  waitingForStep,
} from '../../src/accounts/index.ts';
import { newId } from '../../src/records/index.ts';
import {
  addMember,
  granted,
  makeTempSite,
  PASSWORD,
  refused,
  requestWith,
  setUp,
  signInAs,
  viewerWith,
} from './temp-site.ts';

let temp: Awaited<ReturnType<typeof makeTempSite>>;
let trainer: Viewer;
beforeEach(async () => {
  temp = await makeTempSite();
  trainer = await setUp(temp.site);
});
afterEach(() => temp.remove());

const own = async (cookies: readonly string[], now = new Date()) => {
  const session = await ownSessionOf(requestWith(cookies), temp.site, now);
  if (session === null) throw new Error('no session');
  return session;
};
const from = (cookies: readonly string[]) => ({
  headers: requestWith(cookies).headers,
  address: null,
});

/** Base 32 of RFC 4648, read here without the code under test. */
function fromBase32(text: string): Uint8Array {
  const bits = [...text.replaceAll(' ', '')]
    .map((sign) => 'ABCDEFGHIJKLMNOPQRSTUVWXYZ234567'.indexOf(sign).toString(2).padStart(5, '0'))
    .join('');
  return Uint8Array.from(bits.match(/.{8}/g) ?? [], (byte) => Number.parseInt(byte, 2));
}

/** Sets codes up as a person does and returns what their app knows, and what they wrote down. */
async function withCodes(cookies: readonly string[], now: Date) {
  const session = await own(cookies);
  granted(await setUpCodes(session, 'Test Shop', temp.site, now));
  const { person, email } = session.viewer;
  const shown = await codesBegun(temp.site, { person, email, organisation: 'Test Shop' });
  const secret = fromBase32(shown?.secret ?? '');
  const changed = granted(await confirmCodes(session, codeAt(secret, now), temp.site, now));
  return { secret, shown, ...changed };
}
const step = async (code: string, now = new Date(), cookies?: readonly string[]) =>
  takeSecondStep(
    requestWith(cookies ?? (await signInAs(temp.site, trainer.email))),
    code,
    null,
    temp.site,
    now,
  );
const later = (seconds: number) => new Date(Date.now() + seconds * 1000);

describe('codes from an app', () => {
  it('are asked after the password, and only then there is a session', async () => {
    const { secret, shown } = await withCodes(await signInAs(temp.site, trainer.email), later(-60));
    expect(secret).toHaveLength(20);
    expect(shown?.uri).toMatch(
      /^otpauth:\/\/totp\/.*secret=[A-Z2-7]{32}&algorithm=SHA1&digits=6&period=30$/,
    );
    const half = await signInAs(temp.site, trainer.email);
    expect(half.join()).not.toContain('session_token');
    expect(await viewerWith(temp.site, half)).toBeNull();
    const waiting = await waitingForStep(requestWith(half).headers, temp.site);
    expect(waiting).toMatchObject({ person: trainer.person, codes: true, passkeys: false });
    expect(refused(await step('000000', new Date(), half))).toMatchObject({
      status: 401,
      path: 'code',
    });
    const whole = granted(await step(codeAt(secret, new Date()), new Date(), half));
    expect(await viewerWith(temp.site, whole)).not.toBeNull();
    // the half sign-in is over
    expect(refused(await step(codeAt(secret, later(30)), new Date(), half)).status).toBe(401);
    expect(await waitingForStep(requestWith(half).headers, temp.site)).toBeNull();
  });

  // RFC 6238, section 5.2: the verifier must not accept the second attempt of the OTP
  it('are taken once: the same one again is refused, and one from before it too', async () => {
    const { secret } = await withCodes(await signInAs(temp.site, trainer.email), later(-120));
    const now = new Date();
    const code = codeAt(secret, now);
    granted(await step(code, now));
    expect(refused(await step(code, now)).status).toBe(401);
    expect(refused(await step(codeAt(secret, new Date(now.getTime() - 30_000)), now)).status).toBe(
      401,
    );
    granted(await step(codeAt(secret, later(30)), now));
  });

  it('let one in of two who send the same one at once', async () => {
    const { secret } = await withCodes(await signInAs(temp.site, trainer.email), later(-120));
    const code = codeAt(secret, new Date());
    const halves = [];
    for (let i = 0; i < 4; i++) halves.push(await signInAs(temp.site, trainer.email));
    const all = await Promise.all(halves.map((half) => step(code, new Date(), half)));
    expect(all.filter((one) => one.ok)).toHaveLength(1);
  });

  it('wait longer after wrong ones, whatever the password was, and never for good', async () => {
    const { secret } = await withCodes(await signInAs(temp.site, trainer.email), later(-120));
    const half = await signInAs(temp.site, trainer.email);
    const now = new Date();
    for (let i = 0; i < 5; i++) expect(refused(await step('000000', now, half)).status).toBe(401);
    const held = refused(await step(codeAt(secret, now), now, half));
    expect(held).toMatchObject({ status: 429, path: 'code' });
    expect(held.message).toBe('Too many wrong codes; try again in 5 seconds.');
    granted(await step(codeAt(secret, later(6)), later(6), half));
  });

  it('are over with their five minutes, like a link of no use', async () => {
    const { secret } = await withCodes(await signInAs(temp.site, trainer.email), later(-600));
    const half = await signInAs(temp.site, trainer.email);
    expect(refused(await step(codeAt(secret, later(301)), later(301), half)).path).toBe('');
    granted(await step(codeAt(secret, later(290)), later(290), half));
  });

  it('lie sealed, and for one person only', async () => {
    const { secret, shown } = await withCodes(await signInAs(temp.site, trainer.email), later(-60));
    const rows = await temp.site.store.db.selectFrom('code_maker').selectAll().execute();
    expect(JSON.stringify(rows)).not.toContain(Buffer.from(secret).toString('base64'));
    expect(JSON.stringify(rows)).not.toContain(shown?.secret.replaceAll(' ', ''));
    const other = await addMember(temp.site, trainer, 'trainer', 'Second');
    const [row] = rows;
    await temp.site.store.db
      .insertInto('code_maker')
      .values({ ...row!, person: other.person, lastStep: 0 })
      .execute();
    const half = await signInAs(temp.site, other.email);
    await expect(step(codeAt(secret, new Date()), new Date(), half)).rejects.toThrow(
      /does not fit/,
    );
  });

  it('are not set up by halves: one that was begun asks nothing at sign-in', async () => {
    const session = await own(await signInAs(temp.site, trainer.email));
    granted(await setUpCodes(session, 'Test Shop', temp.site));
    expect(refused(await confirmCodes(session, '000000', temp.site)).status).toBe(401);
    expect(await viewerWith(temp.site, await signInAs(temp.site, trainer.email))).not.toBeNull();
  });
});

describe('recovery codes', () => {
  it('stand in for a code, once each, in any case and spacing, and are kept as hashes', async () => {
    const { recovery } = await withCodes(await signInAs(temp.site, trainer.email), later(-60));
    expect(recovery).toHaveLength(8);
    for (const code of recovery) expect(code).toMatch(/^([2-9A-HJ-NP-Z]{4}-){5}[2-9A-HJ-NP-Z]{4}$/);
    const [first = '', second = ''] = recovery;
    const rows = await temp.site.store.db.selectFrom('recovery_code').selectAll().execute();
    for (const code of recovery) {
      expect(JSON.stringify(rows)).not.toContain(code);
      expect(JSON.stringify(rows)).not.toContain(code.replaceAll('-', ''));
    }
    granted(await step(` ${first.toLowerCase().replaceAll('-', ' ')} `));
    expect(refused(await step(first)).status).toBe(401);
    const both = await Promise.all([step(second), step(second)]);
    expect(both.filter((one) => one.ok)).toHaveLength(1);
    expect((await factorsOf(temp.site.store.db, trainer.person)).recoveryLeft).toBe(6);
  });

  it('are another person’s for nobody, and older ones stop working when new ones are made', async () => {
    const cookies = await signInAs(temp.site, trainer.email);
    const made = await withCodes(cookies, later(-60));
    const other = await addMember(temp.site, trainer, 'trainer', 'Second');
    const theirs = await signInAs(temp.site, other.email);
    await withCodes(theirs, later(-60));
    const half = await signInAs(temp.site, other.email);
    expect(refused(await step(made.recovery[0] ?? '', new Date(), half)).status).toBe(401);
    const session = await own(made.cookies);
    const renewed = granted(await renewRecovery(session, temp.site));
    expect(refused(await step(made.recovery[0] ?? '')).status).toBe(401);
    granted(await step(renewed.recovery[0] ?? ''));
  });
});

describe('a change of how one signs in', () => {
  it('needs a sign-in of the last five minutes, with the second step where there is one', async () => {
    const made = await withCodes(await signInAs(temp.site, trainer.email), later(-60));
    const stale = { ...(await own(made.cookies)), fresh: false };
    const remove = (session: typeof stale) =>
      removeFactor(session, { kind: 'codes' }, from(made.cookies), temp.site);
    expect(refused(await remove(stale)).status).toBe(403);
    expect(refused(await renewRecovery(stale, temp.site)).status).toBe(403);
    expect(refused(await setUpCodes(stale, 'Test Shop', temp.site)).status).toBe(403);
    const fresh = (password: string, code: string) =>
      signInFresh(stale, { password, code }, from(made.cookies), temp.site);
    expect(refused(await fresh('wrong password', '')).path).toBe('password');
    expect(refused(await fresh(PASSWORD, '')).path).toBe('code');
    const { cookies } = granted(await fresh(PASSWORD, codeAt(made.secret, new Date())));
    expect((await own(cookies)).fresh).toBe(true);
    expect((await own(cookies, later(301))).fresh).toBe(false);
    // the token from before is worth nothing
    expect(await viewerWith(temp.site, made.cookies)).toBeNull();
  });

  it('that takes a step away ends every other session, and takes recovery codes along', async () => {
    const other = await signInAs(temp.site, trainer.email);
    const made = await withCodes(await signInAs(temp.site, trainer.email), later(-60));
    const session = await own(made.cookies);
    const { cookies } = granted(
      await removeFactor(session, { kind: 'codes' }, from(made.cookies), temp.site),
    );
    expect(await viewerWith(temp.site, other)).toBeNull();
    expect(await viewerWith(temp.site, made.cookies)).toBeNull();
    expect(await viewerWith(temp.site, cookies)).not.toBeNull();
    expect(await factorsOf(temp.site.store.db, trainer.person)).toEqual({
      codes: false,
      passkeys: [],
      recoveryLeft: 0,
    });
    const logged = await temp.site.store.events({ org: trainer.org, kinds: ['sign-in.changed'] });
    expect(logged.map(({ event }) => event?.body.what)).toEqual(['codes-set-up', 'codes-removed']);
  });
});

describe('a workshop that asks for a second step', () => {
  const rule = (who: 'trainers' | 'trainers-and-employers' | 'nobody', from: string) =>
    temp.site.store.append({
      id: newId(),
      kind: 'organisation.second-step-set',
      version: 1,
      org: trainer.org,
      at: new Date().toISOString(),
      by: trainer.person,
      about: trainer.org,
      body: { who, from },
    });

  it('leads a trainer to setting one up, and lets nothing else be done until then', async () => {
    await rule('trainers', '2026-01-01');
    const cookies = await signInAs(temp.site, trainer.email);
    expect(await viewerOf(requestWith(cookies), temp.site)).toBeNull();
    const session = await own(cookies);
    expect(session.level).toBe('enrol');
    const made = await withCodes(cookies, later(-60));
    expect(await viewerWith(temp.site, made.cookies)).not.toBeNull();
    const last = await own(made.cookies);
    const removed = await removeFactor(last, { kind: 'codes' }, from(made.cookies), temp.site);
    expect(refused(removed).status).toBe(409);
  });

  it.each([
    ['trainers', '2026-01-01', 'employer', 'full'],
    ['trainers-and-employers', '2026-01-01', 'employer', 'enrol'],
    ['trainers-and-employers', '2026-01-01', 'trainee', 'full'],
    ['trainers', '2999-01-01', 'trainer', 'full'],
    ['nobody', '2026-01-01', 'trainer', 'full'],
  ] as const)('%s from %s: a session of a %s is %s', async (who, day, role, level) => {
    const { email } = await addMember(temp.site, trainer, role, 'Somebody');
    await rule(who, day);
    expect((await own(await signInAs(temp.site, email))).level).toBe(level);
  });

  it('leaves everybody else to a password alone', async () => {
    const input = { email: trainer.email, password: PASSWORD };
    expect((await signIn(requestWith(), input, null, temp.site)).ok).toBe(true);
    expect((await own(await signInAs(temp.site, trainer.email))).level).toBe('full');
  });
});
