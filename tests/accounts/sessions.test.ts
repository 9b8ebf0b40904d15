import { createHash } from 'node:crypto';
import { afterEach, beforeEach, describe, expect, it } from 'vitest';
import {
  endOneSession,
  endSessions,
  IDLE_S,
  listSessions,
  ownSessionOf,
  type Role,
  SESSION_LENGTH_S,
  type Viewer,
  viewerOf,
} from '../../src/accounts/index.ts';
import { findSession, rotateSession } from '../../src/accounts/sessions/index.ts';
import { changePassword } from '../../src/accounts/set-password.ts';
import {
  addMember,
  cookieHeader,
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

const table = () => temp.site.store.db.selectFrom('session').selectAll().execute();
const tokenIn = (cookies: readonly string[]) =>
  (cookies[0] ?? '').split(';')[0]?.split('=')[1] ?? '';
const own = async (cookies: readonly string[]) => {
  const session = await ownSessionOf(requestWith(cookies), temp.site);
  if (session === null) throw new Error('no session');
  return session;
};
const headersWith = (cookies: readonly string[]) => requestWith(cookies).headers;
const seenAgo = (seconds: number) =>
  temp.site.store.db
    .updateTable('session')
    .set({ seenAt: new Date(Date.now() - seconds * 1000).toISOString() })
    .execute();

describe('the token of a session', () => {
  it('is 256 bits of chance, never the same twice, and only its SHA-256 is kept', async () => {
    const tokens = [];
    for (let i = 0; i < 5; i++) tokens.push(tokenIn(await signInAs(temp.site, trainer.email)));
    expect(new Set(tokens).size).toBe(5);
    for (const token of tokens) expect(Buffer.from(token, 'base64url')).toHaveLength(32);
    const rows = await table();
    expect(rows.map((row) => row.token).sort()).toEqual(
      tokens.map((token) => createHash('sha256').update(token).digest('hex')).sort(),
    );
    for (const token of tokens) expect(JSON.stringify(rows)).not.toContain(token);
  });

  it('cannot be read off the table: what is kept there opens nothing', async () => {
    await signInAs(temp.site, trainer.email);
    const [row] = await table();
    expect(await viewerWith(temp.site, [`signed-to-saw.session_token=${row?.token}`])).toBeNull();
  });

  it('changes when the person proves again who they are, and the old one is worth nothing', async () => {
    const before = await signInAs(temp.site, trainer.email);
    const session = await own(before);
    const after = await rotateSession(temp.site, session, 'full', new Date());
    expect(cookieHeader(after)).not.toBe(cookieHeader(before));
    expect(await viewerWith(temp.site, before)).toBeNull();
    expect((await own(after)).id).toBe(session.id);
    expect((await own(after)).expiresAt).toBe(session.expiresAt);
  });
});

describe('a session ends', () => {
  it.each(['trainee', 'trainer', 'employer'] as const)(
    'after so long without a request: %s',
    async (role: Role) => {
      const { email } = await addMember(temp.site, trainer, role, `The ${role}`);
      const cookies = await signInAs(temp.site, email);
      await seenAgo(IDLE_S[role] - 5);
      expect(await viewerWith(temp.site, cookies)).not.toBeNull();
      await seenAgo(IDLE_S[role] + 5);
      expect(await viewerWith(temp.site, cookies)).toBeNull();
    },
  );

  it('not while it is in use, and then twelve hours after the sign-in all the same', async () => {
    const cookies = await signInAs(temp.site, trainer.email);
    const start = Date.now();
    const at = (seconds: number) =>
      findSession(temp.site, headersWith(cookies), new Date(start + seconds * 1000));
    for (let second = 0; second < SESSION_LENGTH_S - 60; second += 40 * 60) {
      expect(await at(second), `${second} s`).not.toBeNull();
    }
    expect(await at(SESSION_LENGTH_S + 1)).toBeNull();
  });

  it('when its person has another role', async () => {
    const { email, person } = await addMember(temp.site, trainer, 'trainee');
    const cookies = await signInAs(temp.site, email);
    await temp.site.store.db
      .updateTable('membership')
      .set({ role: 'trainer' })
      .where('person', '=', person)
      .execute();
    expect(await viewerWith(temp.site, cookies)).toBeNull();
    const again = await viewerWith(temp.site, await signInAs(temp.site, email));
    expect(again?.role).toBe('trainer');
  });

  it('when its person is no longer of the workshop, or no longer there at all', async () => {
    const { email, person } = await addMember(temp.site, trainer, 'trainee');
    const cookies = await signInAs(temp.site, email);
    const { db } = temp.site.store;
    await db.deleteFrom('membership').where('person', '=', person).execute();
    expect(await viewerWith(temp.site, cookies)).toBeNull();
    await db.deleteFrom('user').where('id', '=', person).execute();
    expect(await table()).toEqual([]);
  });

  it('everywhere else when the password is changed, and goes on here under a new token', async () => {
    const other = await signInAs(temp.site, trainer.email);
    const here = await signInAs(temp.site, trainer.email);
    const from = { headers: headersWith(here), address: null };
    const change = (current: string, password: string) =>
      own(here).then((session) => changePassword(session, { current, password }, from, temp.site));
    expect(refused(await change('wrong password', 'another password'))).toMatchObject({
      status: 401,
      path: 'current',
    });
    expect(refused(await change(PASSWORD, 'short')).path).toBe('password');
    expect(await viewerWith(temp.site, other)).not.toBeNull();
    const cookies = granted(await change(PASSWORD, 'another password'));
    expect(await viewerWith(temp.site, other)).toBeNull();
    expect(await viewerWith(temp.site, here)).toBeNull();
    expect(await viewerWith(temp.site, cookies)).not.toBeNull();
    const logged = await temp.site.store.events({ org: trainer.org, kinds: ['sign-in.changed'] });
    expect(logged.map(({ event }) => event?.body)).toEqual([{ what: 'password' }]);
  });
});

describe('the list of one’s own sessions', () => {
  it('tells device and times, and of nobody else', async () => {
    const mira = await addMember(temp.site, trainer, 'trainee', 'Mira Holt');
    await signInAs(temp.site, mira.email);
    const here = await own(await signInAs(temp.site, trainer.email));
    const list = await listSessions(trainer.person, temp.site, new Date());
    expect(list.map(({ id, device }) => ({ id, device }))).toEqual([
      { id: here.id, device: 'computer' },
    ]);
    const later = new Date(Date.now() + IDLE_S.trainer * 1000 + 1000);
    expect(await listSessions(trainer.person, temp.site, later)).toEqual([]);
  });

  it('ends one, never one of somebody else', async () => {
    const mira = await addMember(temp.site, trainer, 'trainee', 'Mira Holt');
    const hers = await signInAs(temp.site, mira.email);
    const mine = await signInAs(temp.site, trainer.email);
    const { id } = await own(hers);
    expect(await endOneSession(trainer.person, id, temp.site)).toBe(false);
    expect(await viewerWith(temp.site, hers)).not.toBeNull();
    expect(await endOneSession(mira.person, id, temp.site)).toBe(true);
    expect(await viewerWith(temp.site, hers)).toBeNull();
    expect(await viewerWith(temp.site, mine)).not.toBeNull();
  });

  it('ends all others, or all', async () => {
    const one = await signInAs(temp.site, trainer.email);
    await signInAs(temp.site, trainer.email);
    expect(await endSessions(trainer.person, headersWith(one), temp.site)).toBe(1);
    expect(await viewerWith(temp.site, one)).not.toBeNull();
    expect(await endSessions(trainer.person, null, temp.site)).toBe(1);
    expect(await viewerOf(requestWith(one), temp.site)).toBeNull();
  });
});
