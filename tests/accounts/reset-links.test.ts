import { afterEach, beforeEach, describe, expect, it } from 'vitest';
import {
  endSessionsOf,
  knowReset,
  makeResetLink,
  type ResetClears,
  readResetLink,
  resetNewsFor,
  signIn,
  useResetLink,
  type Viewer,
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
  tokenOf,
  viewerWith,
} from './temp-site.ts';

let temp: Awaited<ReturnType<typeof makeTempSite>>;
let trainer: Viewer;
let mira: Viewer;
let boss: Viewer;
beforeEach(async () => {
  temp = await makeTempSite();
  trainer = await setUp(temp.site);
  mira = await addMember(temp.site, trainer, 'trainee', 'Mira Holt');
  boss = await addMember(temp.site, trainer, 'employer', 'Anna Weir');
});
afterEach(() => temp.remove());

const NEW = 'a quite new password';
const make = (
  by: Viewer | null,
  about: Viewer,
  over: { id?: string; clears?: ResetClears; password?: string; now?: Date } = {},
) =>
  makeResetLink(
    by,
    {
      id: over.id ?? newId(),
      person: about.person,
      clears: over.clears ?? 'password',
      password: over.password ?? PASSWORD,
    },
    null,
    temp.site,
    over.now,
  );
const linkFor = async (by: Viewer, about: Viewer, over = {}) =>
  tokenOf(granted(await make(by, about, over)).path);
const kinds = async () =>
  (
    await temp.site.store.events({
      org: trainer.org,
      kinds: ['reset-link.made', 'reset-link.used'],
    })
  ).map(({ event }) => event?.kind);

describe('a link for a new password', () => {
  it('is 256 bits, kept as a hash, works once and ends every session', async () => {
    const before = await signInAs(temp.site, mira.email);
    const token = await linkFor(trainer, mira);
    expect(Buffer.from(token, 'base64url')).toHaveLength(32);
    const rows = await temp.site.store.db.selectFrom('reset_link').selectAll().execute();
    expect(JSON.stringify(rows)).not.toContain(token);
    // looking at it uses nothing up, and changes nothing
    granted(await readResetLink(token, temp.site));
    expect(await viewerWith(temp.site, before)).not.toBeNull();
    expect(refused(await useResetLink(token, 'short', temp.site)).path).toBe('password');
    granted(await useResetLink(token, NEW, temp.site));
    expect(await viewerWith(temp.site, before)).toBeNull();
    expect(refused(await useResetLink(token, 'one more password', temp.site)).status).toBe(410);
    const attempt = (password: string) =>
      signIn(requestWith(), { email: mira.email, password }, null, temp.site);
    expect((await attempt(PASSWORD)).ok).toBe(false);
    expect((await attempt(NEW)).ok).toBe(true);
    expect(await kinds()).toEqual(['reset-link.made', 'reset-link.used']);
  });

  it('works for 24 hours', async () => {
    const now = new Date();
    const token = await linkFor(trainer, mira, { now });
    const at = (hours: number) => new Date(now.getTime() + hours * 3_600_000);
    expect((await readResetLink(token, temp.site, at(23.9))).ok).toBe(true);
    expect(refused(await readResetLink(token, temp.site, at(24))).status).toBe(410);
    expect(refused(await useResetLink(token, NEW, temp.site, at(24))).status).toBe(410);
    expect(refused(await readResetLink('made-up', temp.site)).status).toBe(404);
  });

  it('lets one of two win who press at the same moment', async () => {
    const token = await linkFor(trainer, mira);
    const both = await Promise.all([
      useResetLink(token, `${NEW} one`, temp.site),
      useResetLink(token, `${NEW} two`, temp.site),
    ]);
    expect(both.filter((one) => one.ok)).toHaveLength(1);
    expect(both.flatMap((one) => (one.ok ? [] : [one.refusal.status]))).toEqual([410]);
    expect(await kinds()).toEqual(['reset-link.made', 'reset-link.used']);
  });

  it('ends the one made before it, and one form makes one entry', async () => {
    const older = await linkFor(trainer, mira);
    const id = newId();
    const first = await linkFor(boss, mira, { id });
    const again = await linkFor(boss, mira, { id });
    expect(refused(await readResetLink(older, temp.site)).status).toBe(410);
    expect(refused(await readResetLink(first, temp.site)).status).toBe(404);
    expect((await readResetLink(again, temp.site)).ok).toBe(true);
    expect(refused(await make(boss, mira, { id, clears: 'everything' })).status).toBe(409);
    expect(await kinds()).toEqual(['reset-link.made', 'reset-link.made']);
  });

  it('is made by somebody who types their own password', async () => {
    const refusal = refused(await make(trainer, mira, { password: 'wrong password' }));
    expect(refusal).toMatchObject({ status: 401, path: 'password' });
    expect(await kinds()).toEqual([]);
  });

  it('is made by a trainer for trainees and by an employer for anybody, never for oneself', async () => {
    const second = await addMember(temp.site, trainer, 'trainer', 'Dev Pradhan');
    const people = { trainer, second, mira, boss };
    const may: string[] = [];
    for (const [by, viewer] of Object.entries(people)) {
      for (const [about, person] of Object.entries(people)) {
        const made = await make(viewer, person);
        if (made.ok) may.push(`${by} for ${about}`);
        else expect(made.refusal.status).toBe(403);
      }
    }
    expect(may).toEqual([
      'trainer for mira',
      'second for mira',
      'boss for trainer',
      'boss for second',
      'boss for mira',
    ]);
    expect(refused(await make(null, mira)).status).toBe(403);
    const stranger = { ...boss, org: 'another-organisation' };
    expect(refused(await make(stranger, mira)).status).toBe(403);
  });

  it.each(['password', 'everything'] as const)('takes away what it says: %s', async (clears) => {
    const { db } = temp.site.store;
    const at = new Date().toISOString();
    const { person } = mira;
    const made = { person, madeAt: at };
    await db
      .insertInto('code_maker')
      .values({ ...made, sealedSecret: 'x', lastStep: 0, confirmedAt: at })
      .execute();
    await db
      .insertInto('recovery_code')
      .values({ ...made, codeHash: 'x', usedAt: null })
      .execute();
    await db
      .insertInto('passkey')
      .values({
        ...made,
        id: newId(),
        credential: 'x',
        publicKey: 'x',
        counter: 0,
        transports: '[]',
        name: 'x',
        usedAt: null,
      })
      .execute();
    granted(await useResetLink(await linkFor(trainer, mira, { clears }), NEW, temp.site));
    const left = await Promise.all(
      (['code_maker', 'recovery_code', 'passkey'] as const).map((table) =>
        db.selectFrom(table).select('person').execute(),
      ),
    );
    expect(left.map((rows) => rows.length)).toEqual(clears === 'password' ? [1, 1, 1] : [0, 0, 0]);
  });

  it('is told to its person, who made it and when, until they say they know', async () => {
    expect(await resetNewsFor(mira.person, temp.site)).toBeNull();
    const token = await linkFor(trainer, mira);
    expect(await resetNewsFor(mira.person, temp.site)).toBeNull();
    granted(await useResetLink(token, NEW, temp.site));
    const news = await resetNewsFor(mira.person, temp.site);
    expect(news).toMatchObject({ by: trainer.name, clears: 'password' });
    await knowReset(mira.person, temp.site, new Date());
    expect(await resetNewsFor(mira.person, temp.site)).toBeNull();
  });

  it('is not needed to sign somebody out everywhere, which the same people may do', async () => {
    const cookies = await signInAs(temp.site, mira.email);
    expect(refused(await endSessionsOf(mira, mira.person, temp.site)).status).toBe(403);
    expect(refused(await endSessionsOf(trainer, boss.person, temp.site)).status).toBe(403);
    expect(await viewerWith(temp.site, cookies)).not.toBeNull();
    expect(granted(await endSessionsOf(trainer, mira.person, temp.site))).toBe(1);
    expect(await viewerWith(temp.site, cookies)).toBeNull();
  });
});
