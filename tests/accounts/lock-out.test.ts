import { afterEach, beforeEach, describe, expect, it } from 'vitest';
import { signIn } from '../../src/accounts/index.ts';
import { delayAfter } from '../../src/accounts/sign-in-tries.ts';
import { makeTempSite, PASSWORD, refused, requestWith, setUp } from './temp-site.ts';

let temp: Awaited<ReturnType<typeof makeTempSite>>;
beforeEach(async () => {
  temp = await makeTempSite();
  await setUp(temp.site);
});
afterEach(() => temp.remove());

const START = Date.parse('2026-03-03T09:30:00.000Z');
const attempt = (
  password: string,
  second: number,
  address: string | null = null,
  email = 'first@x.example',
) =>
  signIn(requestWith(), { email, password }, address, temp.site, new Date(START + second * 1000));

describe('the delay after wrong passwords', () => {
  it('is nothing for four, then doubles from 5 seconds up to a quarter of an hour', () => {
    const delays = Array.from({ length: 14 }, (_, n) => delayAfter(n, 'email'));
    expect(delays).toEqual([0, 0, 0, 0, 0, 5, 10, 20, 40, 80, 160, 320, 640, 900]);
    expect(delayAfter(40, 'address')).toBe(0);
    expect(delayAfter(41, 'address')).toBe(5);
  });

  it('refuses even the right password until it is over, and says how long', async () => {
    for (let i = 0; i < 5; i++)
      expect(refused(await attempt('wrong password', 0)).status).toBe(401);
    expect(refused(await attempt(PASSWORD, 2))).toMatchObject({
      status: 429,
      path: 'password',
      message: 'Too many wrong passwords; try again in 3 seconds.',
    });
    expect((await attempt(PASSWORD, 5)).ok).toBe(true);
  });

  it('grows with every further wrong one', async () => {
    for (let i = 0; i < 5; i++) await attempt('wrong password', 0);
    expect(refused(await attempt('wrong password', 5)).status).toBe(401);
    expect(refused(await attempt(PASSWORD, 14)).message).toMatch(/in 1 second\.$/);
    expect(refused(await attempt('wrong password', 15)).status).toBe(401);
    expect(refused(await attempt(PASSWORD, 16)).message).toMatch(/in 19 seconds/);
  });

  it('starts again after a right one, and after a day', async () => {
    for (let i = 0; i < 4; i++) await attempt('wrong password', 0);
    expect((await attempt(PASSWORD, 1)).ok).toBe(true);
    for (let i = 0; i < 5; i++)
      expect(refused(await attempt('wrong password', 2)).status).toBe(401);
    const later = 24 * 60 * 60 + 3;
    for (let i = 0; i < 4; i++) await attempt('wrong password', later);
    expect((await attempt(PASSWORD, later)).ok).toBe(true);
  });

  it('holds for many tries at the same moment', async () => {
    const all = await Promise.all(Array.from({ length: 12 }, () => attempt('wrong password', 0)));
    const statuses = all.map((one) => refused(one).status);
    expect(statuses.filter((status) => status === 401)).toHaveLength(5);
    expect(statuses.filter((status) => status === 429)).toHaveLength(7);
  });

  it('lets a try through that read its clock a moment before another and is counted after it', async () => {
    await attempt('wrong password', 0.02, '192.0.2.7');
    expect(refused(await attempt('wrong password', 0.01, '192.0.2.7')).status).toBe(401);
    expect((await attempt(PASSWORD, 0, '192.0.2.7')).ok).toBe(true);
    expect((await attempt(PASSWORD, -0.01, '192.0.2.7')).ok).toBe(true);
  });

  it('counts unknown e-mails the same way, so that it tells nobody who is here', async () => {
    const statuses: number[] = [];
    for (let i = 0; i < 6; i++) {
      statuses.push(refused(await attempt('wrong password', 0, null, 'nobody@x.example')).status);
    }
    expect(statuses).toEqual([401, 401, 401, 401, 401, 429]);
  });

  it('stops one address that tries many e-mails, and nobody else', async () => {
    for (let i = 0; i < 41; i++) {
      await attempt('wrong password', 0, '192.0.2.7', `person-${i}@x.example`);
    }
    expect(refused(await attempt(PASSWORD, 1, '192.0.2.7')).status).toBe(429);
    expect((await attempt(PASSWORD, 1, '192.0.2.8')).ok).toBe(true);
    // An hour later the workshop behind that address starts again.
    await attempt('wrong password', 3_700, '192.0.2.7', 'person-1@x.example');
    expect((await attempt(PASSWORD, 3_701, '192.0.2.7')).ok).toBe(true);
  }, 60_000);

  it('keeps no e-mail and no address in the clear', async () => {
    await attempt('wrong password', 0, '192.0.2.7');
    const rows = await temp.site.store.db.selectFrom('sign_in_try').selectAll().execute();
    expect(rows).toHaveLength(2);
    expect(JSON.stringify(rows)).not.toMatch(/first|192\.0/);
  });
});
