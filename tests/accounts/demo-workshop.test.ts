import { afterEach, beforeEach, describe, expect, it } from 'vitest';
import { fillDemoWorkshop, peopleOf, signIn } from '../../src/accounts/index.ts';
import { granted, makeTempSite, refused, requestWith, setUp, viewerWith } from './temp-site.ts';

let temp: Awaited<ReturnType<typeof makeTempSite>>;
beforeEach(async () => {
  temp = await makeTempSite();
});
afterEach(() => temp.remove());

const orgOf = async () =>
  (await temp.site.store.db.selectFrom('organisation').select('id').executeTakeFirstOrThrow()).id;
const benches = async () =>
  temp.site.store.events({ org: await orgOf(), kinds: ['bench.registered'] });

describe('the invented workshop', () => {
  it('has 3 trainees, 2 trainers, 1 employer and 2 benches, and every sign-in works', async () => {
    const signIns = granted(await fillDemoWorkshop(temp.site));
    const people = await peopleOf(await orgOf(), temp.site);
    expect(people.map((one) => `${one.role} ${one.name}`)).toEqual([
      'trainee Jess Lindqvist',
      'trainee Mira Holt',
      'trainee Tom Okafor',
      'trainer Dev Pradhan',
      'trainer Ruth Amsel',
      'employer Anna Weir',
    ]);
    expect((await benches()).map((one) => one.event?.body.asset)).toEqual(['AL-01', 'AL-02']);
    expect((await benches()).map((one) => one.broken)).toEqual([null, null]);
    for (const { name, role, email, password } of signIns) {
      expect(email).toMatch(/@alderlane\.example$/);
      const cookies = granted(await signIn(requestWith(), { email, password }, null, temp.site));
      expect(await viewerWith(temp.site, cookies)).toMatchObject({ name, role });
    }
    expect(new Set(signIns.map((one) => one.password)).size).toBe(6);
  });

  it('filled again has the same people and benches, and new passwords', async () => {
    const [first] = granted(await fillDemoWorkshop(temp.site));
    const people = await peopleOf(await orgOf(), temp.site);
    const [second] = granted(await fillDemoWorkshop(temp.site));
    expect(await peopleOf(await orgOf(), temp.site)).toEqual(people);
    expect(await benches()).toHaveLength(2);
    if (first === undefined || second === undefined) throw new Error('nobody');
    expect(second.password).not.toBe(first.password);
    expect((await signIn(requestWith(), first, null, temp.site)).ok).toBe(false);
    expect((await signIn(requestWith(), second, null, temp.site)).ok).toBe(true);
  });

  it('is finished by a second run when the first was cut short', async () => {
    await fillDemoWorkshop(temp.site);
    const db = temp.site.store.db;
    await db.deleteFrom('user').where('email', '=', 'mira.holt@alderlane.example').execute();
    expect(await peopleOf(await orgOf(), temp.site)).toHaveLength(5);
    granted(await fillDemoWorkshop(temp.site));
    expect(await peopleOf(await orgOf(), temp.site)).toHaveLength(6);
  });

  it('takes one password for everybody, when it is long enough', async () => {
    expect(refused(await fillDemoWorkshop(temp.site, 'short')).path).toBe('password');
    const signIns = granted(await fillDemoWorkshop(temp.site, 'the same for all'));
    expect(new Set(signIns.map((one) => one.password))).toEqual(new Set(['the same for all']));
    const [, , mira] = signIns;
    if (mira === undefined) throw new Error('nobody');
    expect((await signIn(requestWith(), mira, null, temp.site)).ok).toBe(true);
  });

  it('does not touch a site with a real organisation', async () => {
    const trainer = await setUp(temp.site);
    const before = await temp.site.store.checkpoint();
    expect(refused(await fillDemoWorkshop(temp.site))).toMatchObject({
      status: 409,
      message: expect.stringMatching(/real organisation, so nothing was filled in/),
    });
    expect(await temp.site.store.checkpoint()).toBe(before);
    expect(await peopleOf(trainer.org, temp.site)).toHaveLength(1);
  });
});
