import { afterEach, beforeEach, describe, expect, it } from 'vitest';
import { setPassword, signIn, signOut, type Viewer, viewerOf } from '../../src/accounts/index.ts';
import {
  addMember,
  cookieHeader,
  granted,
  makeSaltingSite,
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

const sessions = () => temp.site.store.db.selectFrom('session').selectAll().execute();

describe('signing in', () => {
  it('makes the viewer known by one cookie that scripts and other sites cannot use', async () => {
    const cookies = await signInAs(temp.site, 'first@x.example');
    expect(cookies).toHaveLength(1);
    expect(cookies[0]).toMatch(/^signed-to-saw\.session_token=/);
    for (const flag of ['HttpOnly', 'SameSite=Lax', 'Path=/', 'Max-Age=43200']) {
      expect(cookies[0]).toContain(flag);
    }
    expect(cookies[0]).not.toContain('Secure');
    const seen = await viewerWith(temp.site, cookies);
    expect(seen).toEqual({ ...trainer, signedInAt: seen?.signedInAt });
    expect(Math.abs(Date.parse(seen?.signedInAt ?? '') - Date.now())).toBeLessThan(5_000);
  });

  it('binds its cookie to this host by name where people reach the site by https (RFC 6265bis)', async () => {
    const secure = await makeTempSite('https://saw.example');
    await setUp(secure.site);
    const cookies = await signInAs(secure.site, 'first@x.example');
    expect(cookies).toEqual([
      expect.stringMatching(/^__Host-signed-to-saw\.session_token=[^;]+; /),
    ]);
    const flags = cookies[0]?.split('; ').slice(1);
    expect(flags).toEqual(['Max-Age=43200', 'Path=/', 'HttpOnly', 'SameSite=Lax', 'Secure']);
    expect((await viewerWith(secure.site, cookies))?.email).toBe('first@x.example');

    // the same token under the former name, or the one of a site without https, opens nothing and is ended
    for (const [name, cleared] of [
      ['__Secure-signed-to-saw', 1],
      ['signed-to-saw', 0],
    ] as const) {
      const old = cookies.map((one) => one.replace('__Host-signed-to-saw', name));
      expect(await viewerWith(secure.site, old)).toBeNull();
      expect(await signOut(requestWith(old), secure.site)).toHaveLength(cleared);
    }
    expect(await viewerWith(secure.site, cookies)).toBeNull();
    await secure.remove();
  });

  it('keeps no network address and no browser name', async () => {
    await signInAs(temp.site, 'first@x.example');
    expect(await sessions()).toMatchObject([{ ipAddress: '', userAgent: '' }]);
  });

  it('knows the role from the membership, whatever the session says', async () => {
    const employer = await addMember(temp.site, trainer, 'employer');
    const cookies = await signInAs(temp.site, employer.email);
    expect((await viewerWith(temp.site, cookies))?.role).toBe('employer');
  });

  it('takes the e-mail in any case and with spaces around it', async () => {
    const input = { email: ' FIRST@x.example', password: PASSWORD };
    expect((await signIn(requestWith(), input, null, temp.site)).ok).toBe(true);
  });

  it('says the same of a wrong password and of an unknown e-mail', async () => {
    const wrong = await signIn(
      requestWith(),
      { email: 'first@x.example', password: 'wrong password' },
      null,
      temp.site,
    );
    const unknown = await signIn(
      requestWith(),
      { email: 'nobody@x.example', password: PASSWORD },
      null,
      temp.site,
    );
    expect(refused(wrong)).toEqual(refused(unknown));
    expect(refused(wrong).message).toBe('That e-mail and password do not belong together.');
    expect(await sessions()).toEqual([]);
  });

  it.each([
    ['email', { email: 'x', password: PASSWORD }],
    ['password', { email: 'first@x.example', password: '' }],
    ['password', { email: 'first@x.example', password: 'x'.repeat(129) }],
  ])('names the field when the %s is no such thing', async (path, input) => {
    expect(refused(await signIn(requestWith(), input, null, temp.site))).toMatchObject({
      status: 400,
      path,
    });
  });

  it('begins a new session and ends the one the browser had', async () => {
    const before = await signInAs(temp.site, 'first@x.example');
    const input = { email: 'first@x.example', password: PASSWORD };
    const after = granted(await signIn(requestWith(before), input, null, temp.site));
    expect(cookieHeader(after)).not.toBe(cookieHeader(before));
    expect(await viewerWith(temp.site, before)).toBeNull();
    expect(await viewerWith(temp.site, after)).not.toBeNull();
    expect(await sessions()).toHaveLength(1);
  });
});

describe('a session', () => {
  it('is not made for somebody who only looks', async () => {
    expect(await viewerOf(requestWith(), temp.site)).toBeNull();
    expect(await viewerWith(temp.site, ['signed-to-saw.session_token=made.up'])).toBeNull();
    expect(await sessions()).toEqual([]);
  });

  it('is not believed when one character of its cookie is changed', async () => {
    const [cookie = ''] = await signInAs(temp.site, 'first@x.example');
    const at = cookie.indexOf('=') + 3;
    const changed = `${cookie.slice(0, at)}${cookie[at] === 'a' ? 'b' : 'a'}${cookie.slice(at + 1)}`;
    expect(await viewerWith(temp.site, [changed])).toBeNull();
  });

  it('ends twelve hours after the sign-in', async () => {
    const cookies = await signInAs(temp.site, 'first@x.example');
    const [session] = await sessions();
    const length = Date.parse(session?.expiresAt ?? '') - Date.parse(session?.createdAt ?? '');
    expect(Math.round(length / 60_000)).toBe(12 * 60);
    const past = new Date(Date.now() - 1_000).toISOString();
    await temp.site.store.db.updateTable('session').set({ expiresAt: past }).execute();
    expect(await viewerWith(temp.site, cookies)).toBeNull();
  });

  it('ends by signing out, on the server too', async () => {
    const cookies = await signInAs(temp.site, 'first@x.example');
    const cleared = await signOut(requestWith(cookies), temp.site);
    expect(cleared.join()).toMatch(/session_token=;.*Max-Age=0/);
    expect(await viewerWith(temp.site, cookies)).toBeNull();
    expect(await sessions()).toEqual([]);
    expect(await signOut(requestWith(), temp.site)).toEqual([]);
  });

  it('ends when the person gets a new password, and only the new one works', async () => {
    const cookies = await signInAs(temp.site, 'first@x.example');
    granted(await setPassword(temp.site, trainer.person, 'another password'));
    expect(await viewerWith(temp.site, cookies)).toBeNull();
    const attempt = (password: string) =>
      signIn(requestWith(), { email: 'first@x.example', password }, null, temp.site);
    expect((await attempt(PASSWORD)).ok).toBe(false);
    expect((await attempt('another password')).ok).toBe(true);
    expect(refused(await setPassword(temp.site, trainer.person, 'short')).path).toBe('password');
  });
});

describe('a password', () => {
  it('is kept as scrypt with a salt of its own', async () => {
    const salting = await makeSaltingSite();
    await addMember(salting.site, await setUp(salting.site), 'trainee');
    const rows = await salting.site.store.db.selectFrom('account').select('password').execute();
    await salting.remove();
    expect(new Set(rows.map((row) => row.password)).size).toBe(2);
    // OWASP Password Storage Cheat Sheet, scrypt: N=2^15 (32 MiB), r=8, p=3; salt of 16 bytes and key of 32
    for (const row of rows) {
      expect(row.password).toMatch(
        /^\$scrypt\$ln=15,r=8,p=3\$[A-Za-z0-9+/]{22}\$[A-Za-z0-9+/]{43}$/,
      );
    }
  });

  it('cannot be set by the library’s own sign-up', async () => {
    const body = { name: 'X', email: 'x@x.example', password: PASSWORD };
    await expect(temp.site.auth.api.signUpEmail({ body })).rejects.toThrow(/sign up/i);
  });
});
