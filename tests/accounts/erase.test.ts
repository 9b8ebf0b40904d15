import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import {
  checkEarlier,
  choosePeriods,
  enterEarlier,
  erasePerson,
  erasuresDue,
  ownData,
  peopleOf,
  planErasure,
  TABLE_NAMES,
  wishErasure,
} from '../../src/accounts/index.ts';
import { workshopOf } from '../../src/pages/_desk/workshop.ts';
import { auditLog, newId } from '../../src/records/index.ts';
import {
  addMember,
  granted,
  makeTempSite,
  PASSWORD,
  refused,
  setUp,
  signInAs,
  viewerWith,
} from './temp-site.ts';

const NAME = 'Quendolin Vrastecki';
const EMAIL = 'quendolin.vrastecki@x.example';

async function makeShop() {
  const temp = await makeTempSite();
  const trainer = await setUp(temp.site);
  const boss = await addMember(temp.site, trainer, 'employer', 'Anna Weir');
  const who = await addMember(temp.site, trainer, 'trainee', NAME);
  const other = await addMember(temp.site, trainer, 'trainee', 'Tom Okafor');
  return { ...temp, trainer, boss, who, other };
}
let shop: Awaited<ReturnType<typeof makeShop>>;
beforeAll(async () => {
  shop = await makeShop();
});
afterAll(() => shop.remove());

const erase = (input: object, viewer = shop.trainer, person = shop.who.person) =>
  erasePerson(
    viewer,
    person,
    { id: newId(), reason: 'asked-in-writing', name: NAME, password: PASSWORD, ...input },
    { address: null, site: shop.site },
  );

describe("a person's own data", () => {
  it('holds all about them, no secret, and nobody else but by name', async () => {
    const form = newId();
    const text = `${NAME},Vrastecki course,saw bench,Old Master,2020-01-02,,Folder`;
    const plan = granted(await checkEarlier(shop.trainer, { form, text }, shop.site));
    granted(await enterEarlier(shop.trainer, form, plan, shop.site));
    await shop.site.store.db
      .insertInto('photo')
      .values({
        digest: 'a'.repeat(64),
        org: shop.who.org,
        signoff: newId(),
        about: shop.who.person,
        type: 'image/jpeg',
        bytes: new Uint8Array([1, 2, 3]),
        received: new Date().toISOString(),
      })
      .execute();
    await signInAs(shop.site, EMAIL);
    const data = granted(await ownData(shop.who, shop.site));
    expect(Object.keys(data.tables).sort()).toEqual(
      [
        'account',
        'earlier_training',
        'invitation',
        'membership',
        'photo',
        'session',
        'user',
      ].sort(),
    );
    expect(data.tables['photo']?.[0]?.['bytes']).toBe('AQID');
    expect(data.tables['user']?.[0]).toMatchObject({ name: NAME, email: EMAIL });
    expect(data.tables['account']?.[0]).not.toHaveProperty('password');
    expect(data.tables['session']?.[0]).not.toHaveProperty('token');
    expect(data.aboutYou.length).toBe(3);
    const written = JSON.stringify(data);
    expect(written).not.toContain(shop.other.person);
    expect(written).not.toMatch(/Okafor|anna\.weir|first@x/);
    expect(refused(await ownData(null, shop.site)).status).toBe(403);
  });

  it('of a trainer tells that records about others were made, and not what they say', async () => {
    const data = granted(await ownData(shop.trainer, shop.site));
    expect(data.byYou).toContainEqual(
      expect.objectContaining({ kind: 'earlier.stated', about: shop.who.person }),
    );
    expect(JSON.stringify(data)).not.toContain('wordsHash');
  });
});

describe('erasing a person', () => {
  it('is asked for by the person, and stands on the list of those who do it', async () => {
    expect(await erasuresDue(shop.who.org, shop.site)).toEqual([]);
    await wishErasure(shop.who, 'ask', shop.site);
    await wishErasure(shop.who, 'ask', shop.site);
    expect(await erasuresDue(shop.who.org, shop.site)).toMatchObject([{ name: NAME }]);
    await wishErasure(shop.who, 'take-back', shop.site);
    expect(await erasuresDue(shop.who.org, shop.site)).toEqual([]);
    const later = new Date(Date.now() + 40 * 31 * 86_400_000);
    expect((await erasuresDue(shop.who.org, shop.site, later)).length).toBe(4);
    granted(await choosePeriods(shop.boss, { photo: '12', account: '480' }, shop.site));
    expect(await erasuresDue(shop.who.org, shop.site, later)).toEqual([]);
    const off = await choosePeriods(shop.boss, { photo: '2', account: '480' }, shop.site);
    expect(refused(off).message).toBe('Months for photos must be a whole number from 3 to 120.');
  });

  it.each([
    ['a trainee', () => erase({}, shop.other), 403, ''],
    ['themselves', () => erase({}, shop.who), 403, ''],
    ['another name', () => erase({ name: 'Tom Okafor' }), 400, 'name'],
    ['a wrong password', () => erase({ password: 'not this one here' }), 401, 'password'],
    ['no reason', () => erase({ reason: 'mood' }), 400, 'reason'],
    ['a wish that was never made', () => erase({ reason: 'asked' }), 409, 'reason'],
    ['a period that is not over', () => erase({ reason: 'period' }), 409, 'reason'],
    ['somebody who is not here', () => erase({}, shop.trainer, 'nobody'), 404, ''],
  ])('is refused for %s', async (_why, act, status, path) => {
    expect(refused(await act())).toMatchObject({ status, path });
  });

  it('never takes the only employer or the only trainer', async () => {
    const boss = { name: 'Anna Weir' };
    expect(refused(await erase(boss, shop.trainer, shop.boss.person)).status).toBe(409);
    const trainer = { name: 'First Trainer', password: PASSWORD };
    expect(refused(await erase(trainer, shop.boss, shop.trainer.person)).status).toBe(409);
  });

  it('leaves no name and no e-mail in any file, and a log that audits clean', async () => {
    const { site, who } = shop;
    const cookies = await signInAs(site, EMAIL);
    expect((await viewerWith(site, cookies))?.person).toBe(who.person);
    const plan = granted(await planErasure(shop.trainer, who.person, site));
    expect(plan.stays).toBe(3);
    expect(plan.goes.map(({ table }) => table)).toEqual(
      expect.arrayContaining(['user', 'account', 'membership', 'photo', 'earlier_training']),
    );
    expect(await shop.holds(NAME)).toBe(true);
    const before = await site.store.checkpoint();
    const id = newId();
    const sent = await Promise.all([erase({ id }), erase({ id })]);
    expect(sent.map(({ ok }) => ok)).toContain(true);
    granted(await erase({ id }));

    for (const text of [NAME, 'Vrastecki', EMAIL, 'Old Master']) {
      expect(await shop.holds(text), text).toBe(false);
    }
    for (const name of TABLE_NAMES.filter((one) => one !== 'event')) {
      const rows = await site.store.db
        .selectFrom(name as 'user')
        .selectAll()
        .execute();
      expect(JSON.stringify(rows), name).not.toContain(who.person);
    }
    expect(await viewerWith(site, cookies)).toBeNull();
    expect((await peopleOf(who.org, site)).map(({ name }) => name)).not.toContain(NAME);
    expect((await workshopOf(who.org, site)).nameOf(who.person)).toBe('erased person');
    const erased = await site.store.events({ org: who.org, kinds: ['person.erased'] });
    expect(erased.map(({ event }) => event)).toMatchObject([
      { about: who.person, by: shop.trainer.person, body: { reason: 'asked-in-writing' } },
    ]);
    const report = await auditLog(site.store.readChunks(), {
      checkpoints: [before, await site.store.checkpoint()],
      publicKeys: [site.siteKey.publicKey],
      depth: 'events',
    });
    expect(report.ok).toBe(true);
  });
});
