import { afterAll, beforeAll, expect, it } from 'vitest';
import {
  endShareLink,
  makeShareLink,
  openShare,
  type SharedScope,
  shareLinksOf,
} from '../../src/accounts/index.ts';
import { newId } from '../../src/records/index.ts';
import { granted, makeWorkshop, refused } from './temp-site.ts';

let shop: Awaited<ReturnType<typeof makeWorkshop>>;
beforeAll(async () => {
  shop = await makeWorkshop();
});
afterAll(() => shop.remove());

const START = Date.parse('2026-03-03T09:00:00.000Z');
const at = (minutes: number) => new Date(START + minutes * 60_000);
const ALL: SharedScope = { people: [], bench: null };
const asked = { id: '', purpose: 'Yearly inspection', until: '2026-03-31', ...ALL };
const make = async (change: Partial<typeof asked> = {}) =>
  granted(
    await makeShareLink(shop.boss, { ...asked, id: newId(), ...change }, shop.site, at(0)),
  ).replace('/shared/', '');
const logged = async () => {
  const kinds = ['share.made', 'share.opened', 'share.ended'] as const;
  const events = await shop.site.store.events({ org: shop.boss.org, kinds });
  return events.flatMap(({ event }) => (event === null ? [] : [event]));
};

it('keeps the hash of the secret alone, and opens by the secret alone', async () => {
  const token = await make({ people: [shop.mira.person] });
  expect(Buffer.from(token, 'base64url').length * 8).toBeGreaterThanOrEqual(128);
  const rows = await shop.site.store.db.selectFrom('share_link').selectAll().execute();
  expect(JSON.stringify([rows, await logged()])).not.toContain(token);
  expect(await openShare(token, shop.site, at(1))).toEqual({
    id: rows[0]?.id,
    org: shop.boss.org,
    madeAt: at(0).toISOString(),
    endsAt: '2026-03-31T23:59:59.999Z',
    purpose: 'Yearly inspection',
    people: [shop.mira.person],
    bench: null,
  });
  expect(await openShare(rows[0]?.tokenHash ?? '', shop.site, at(1))).toBeNull();
  expect(await openShare('', shop.site, at(1))).toBeNull();
});

it('says nothing of its purpose in the log, and nothing of who opened it', async () => {
  await openShare(await make({ purpose: 'For Inspector Penhallow' }), shop.site, at(2));
  const events = await logged();
  expect(JSON.stringify(events)).not.toContain('Penhallow');
  expect(
    events
      .filter(({ kind }) => kind === 'share.opened')
      .map(({ body }) => Object.keys(body).sort()),
  ).toContainEqual(['link', 'openings']);
});

it('tells the log of one opening in ten minutes, with how many there were, and counts them all', async () => {
  const token = await make();
  const [link] = await shareLinksOf(shop.boss.org, shop.site);
  for (const minute of [0, 1, 2, 9.9, 10, 11, 25]) await openShare(token, shop.site, at(minute));
  const told = (await logged()).filter(
    ({ kind, by }) => kind === 'share.opened' && by === link?.id,
  );
  expect(told.map(({ at, body }) => [at, 'openings' in body ? body.openings : 0])).toEqual([
    [at(0).toISOString(), 1],
    [at(10).toISOString(), 4],
    [at(25).toISOString(), 2],
  ]);
  const now = (await shareLinksOf(shop.boss.org, shop.site)).find(({ id }) => id === link?.id);
  expect(now).toMatchObject({ openings: 7, openedAt: at(25).toISOString() });
});

it('opens nothing from the end of its last day on, nor once it is ended', async () => {
  const token = await make({ until: '2026-03-04' });
  const last = new Date('2026-03-04T23:59:59.998Z');
  expect(await openShare(token, shop.site, last)).not.toBeNull();
  expect(await openShare(token, shop.site, new Date(last.getTime() + 1))).toBeNull();
  const other = await make();
  const [link] = await shareLinksOf(shop.boss.org, shop.site);
  granted(await endShareLink(shop.boss, link?.id ?? '', shop.site, at(3)));
  granted(await endShareLink(shop.boss, link?.id ?? '', shop.site, at(4)));
  expect(await openShare(other, shop.site, at(5))).toBeNull();
  const ended = (await logged()).filter(({ kind }) => kind === 'share.ended');
  expect(ended).toHaveLength(1);
});

it.each([
  ['until', { until: '2026-03-03' }],
  ['until', { until: '2026-06-02' }],
  ['until', { until: 'soon' }],
  ['purpose', { purpose: ' ' }],
  ['purpose', { purpose: 'x'.repeat(201) }],
])('refuses what is out of range, naming %s: %o', async (path, change) => {
  const refusal = refused(
    await makeShareLink(shop.boss, { ...asked, id: newId(), ...change }, shop.site, at(0)),
  );
  expect([refusal.status, refusal.path]).toEqual([400, path]);
  expect(refusal.message).toMatch(new RegExp(`^${path} must be .*[.]$`));
});

it('takes the first and the last day allowed', async () => {
  await make({ until: '2026-03-04' });
  await make({ until: '2026-06-01' });
});

it('is made and ended by neither a trainee nor somebody not signed in, and not across organisations', async () => {
  const before = (await logged()).length;
  for (const viewer of [shop.mira, null]) {
    expect(
      refused(await makeShareLink(viewer, { ...asked, id: newId() }, shop.site, at(0))).status,
    ).toBe(403);
    expect(refused(await endShareLink(viewer, 'x', shop.site, at(0))).status).toBe(403);
  }
  const [link] = await shareLinksOf(shop.boss.org, shop.site);
  const stranger = { ...shop.boss, org: 'org-2' };
  expect(refused(await endShareLink(stranger, link?.id ?? '', shop.site, at(0))).status).toBe(404);
  expect((await logged()).length).toBe(before);
});

it('is made once, however often its form is sent, and says so the second time', async () => {
  const id = newId();
  await make({ id });
  const again = refused(await makeShareLink(shop.boss, { ...asked, id }, shop.site, at(1)));
  expect([again.status, again.path]).toEqual([409, 'id']);
  expect(
    (await shareLinksOf(shop.boss.org, shop.site)).filter((one) => one.id === id),
  ).toHaveLength(1);
});
