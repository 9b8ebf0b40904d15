import { afterAll, beforeAll, expect, it } from 'vitest';
import {
  calendarOfViewer,
  makeCalendarAddress,
  openCalendar,
  removeCalendarAddress,
} from '../../src/accounts/index.ts';
import { granted, makeWorkshop, refused } from './temp-site.ts';

let shop: Awaited<ReturnType<typeof makeWorkshop>>;
beforeAll(async () => {
  shop = await makeWorkshop();
});
afterAll(() => shop.remove());

const make = async (names = 'full') =>
  granted(await makeCalendarAddress(shop.mira, { names, language: 'de' }, shop.site));
const tokenOf = (path: string) => path.replace('/calendar/', '').replace('.ics', '');

it('keeps the hash of the secret alone, and opens by the secret alone', async () => {
  const path = await make();
  const token = tokenOf(path);
  expect(Buffer.from(token, 'base64url').length * 8).toBeGreaterThanOrEqual(128);
  const rows = await shop.site.store.db.selectFrom('calendar_address').selectAll().execute();
  expect(JSON.stringify(rows)).not.toContain(token);
  expect(await openCalendar(token, shop.site)).toEqual({
    org: shop.mira.org,
    person: shop.mira.person,
    role: 'trainee',
    language: 'de',
    names: 'full',
  });
  expect(await openCalendar(rows[0]?.tokenHash ?? '', shop.site)).toBeNull();
  expect(await openCalendar('', shop.site)).toBeNull();
});

it('is one to a person: renewing ends the old one, removing ends it for good', async () => {
  const old = tokenOf(await make());
  const renewed = tokenOf(await make('opaque'));
  expect(renewed).not.toBe(old);
  expect(await openCalendar(old, shop.site)).toBeNull();
  expect(await openCalendar(renewed, shop.site)).toMatchObject({ names: 'opaque' });
  expect(await calendarOfViewer(shop.mira, shop.site)).toMatchObject({ names: 'opaque' });
  expect(await calendarOfViewer(shop.tom, shop.site)).toBeNull();
  granted(await removeCalendarAddress(shop.mira, shop.site));
  granted(await removeCalendarAddress(shop.mira, shop.site));
  expect(await openCalendar(renewed, shop.site)).toBeNull();
});

it('refuses a choice it does not know, and somebody who is not signed in', async () => {
  const choice = { names: 'some', language: 'en' as const };
  expect(refused(await makeCalendarAddress(shop.mira, choice, shop.site)).status).toBe(400);
  expect(refused(await makeCalendarAddress(null, choice, shop.site)).status).toBe(403);
  expect(refused(await removeCalendarAddress(null, shop.site)).status).toBe(403);
});
