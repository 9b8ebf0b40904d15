import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { sweepExpired } from '../../src/accounts/index.ts';
import { asSite } from '../../src/store/index.ts';
import { SLOW } from '../store/temp-store.ts';
import { addMember, SITES, setUp, signInAs, type TempSite } from './temp-site.ts';

const DAY_MS = 86_400_000;

describe.each(SITES)('the daily sweep on %s', (_engine, makeSite) => {
  let temp: TempSite;
  beforeAll(async () => {
    temp = await makeSite();
  }, SLOW);
  afterAll(() => temp.remove());

  it('erases what is past its period, once, whoever sweeps beside it, and keeps the rest', async () => {
    const { db } = temp.site.store;
    const now = new Date();
    const daysAgo = (days: number) => new Date(now.getTime() - days * DAY_MS).toISOString();
    await asSite(async () => {
      const trainer = await setUp(temp.site);
      const { person, org } = await addMember(temp.site, trainer, 'trainee', 'Tom Okafor');
      const photo = { org, about: person, type: 'image/jpeg' as const, bytes: new Uint8Array([1]) };
      const old = { ...photo, digest: 'a'.repeat(64), signoff: 'one', received: daysAgo(4000) };
      const fresh = { ...photo, digest: 'b'.repeat(64), signoff: 'two', received: daysAgo(1) };
      await db.insertInto('photo').values([old, fresh]).execute();
      await signInAs(temp.site, trainer.email);
      await signInAs(temp.site, 'tom.okafor@x.example');
      // last, for signing in drops what has ended as well
      await db
        .updateTable('session')
        .set({ expiresAt: daysAgo(1) as never })
        .where('userId', '=', trainer.person)
        .execute();
    });
    // nobody asks here: the sweep must say for itself that it is the site's
    const counted = await sweepExpired(db, now, 'count');
    expect(counted).toMatchObject({ session: 1, photo: 1 });
    expect(await sweepExpired(db, now, 'count')).toEqual(counted);
    await Promise.all([sweepExpired(db, now, 'erase'), sweepExpired(db, now, 'erase')]);
    const left = await sweepExpired(db, now, 'count');
    expect(Object.values(left).every((rows) => rows === 0)).toBe(true);
    const [photos, sessions] = await asSite(() =>
      Promise.all([
        db.selectFrom('photo').select('signoff').execute(),
        db.selectFrom('session').select('id').execute(),
      ]),
    );
    expect(photos).toEqual([{ signoff: 'two' }]);
    expect(sessions.length).toBe(1);
  });
});
