import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import {
  checkEarlier,
  enterEarlier,
  invite,
  organisationData,
  ownData,
  type Viewer,
} from '../../src/accounts/index.ts';
import { newId, toHex } from '../../src/records/index.ts';
import { storedLeafHash } from '../../src/store/stored-event.ts';
import { askByDefault } from '../helpers/asked-by-default.ts';
import { addMember, granted, makeTempSite, refused, setUp, signInAs } from './temp-site.ts';

const AT = new Date('2026-03-03T11:00:00.000Z');
const FAR = /Far Shop|Far Trainer|far\.|Quendolin/;

async function makeTwo() {
  const { site, remove } = await makeTempSite();
  const trainer = await setUp(site);
  const boss = await addMember(site, trainer, 'employer', 'Anna Weir');
  const mira = await addMember(site, trainer, 'trainee', 'Mira Holt');
  const { db } = site.store;
  // a site is set up once: the second workshop is put into the tables and invites like any other
  const made = { org: newId(), person: newId() };
  const madeAt = AT.toISOString();
  const salt = 'ab'.repeat(16);
  const shop = { id: made.org, name: 'Far Shop', salt, invented: 0, madeAt };
  await db.insertInto('organisation').values(shop).execute();
  const user = { id: made.person, name: 'Far Trainer', email: 'far.trainer@x.example' };
  const dates = { createdAt: madeAt, updatedAt: madeAt };
  await db
    .insertInto('user')
    .values({ ...user, ...dates, emailVerified: 1, image: null })
    .execute();
  await db
    .insertInto('membership')
    .values({ ...made, role: 'trainer', salt, joinedAt: madeAt })
    .execute();
  const signedInAt = new Date().toISOString();
  const farTrainer: Viewer = {
    ...made,
    name: 'Far Trainer',
    email: 'far.trainer@x.example',
    role: 'trainer',
    signedInAt,
  };
  const farOne = await addMember(site, farTrainer, 'trainee', 'Quendolin Vrastecki');
  for (const [by, who] of [
    [trainer, mira],
    [farTrainer, farOne],
  ] as const) {
    const form = newId();
    const text = `${who.name},Course of ${who.name},saw bench,Old Master,2020-01-02,,Folder`;
    granted(
      await enterEarlier(by, form, granted(await checkEarlier(by, { form, text }, site)), site),
    );
    granted(await invite(by, { role: 'trainee', name: `Friend of ${who.name}` }, site));
    const group = newId();
    const row = { id: group, org: by.org, name: `Group of ${who.name}`, madeAt: signedInAt };
    await db.insertInto('person_group').values(row).execute();
    await db.insertInto('person_group_member').values({ group, person: who.person }).execute();
    for (const signoff of [newId(), newId()]) {
      const photo = { digest: 'a'.repeat(64), org: by.org, signoff, about: who.person };
      const bytes = new Uint8Array([1, 2, who === mira ? 3 : 4]);
      const rest = { type: 'image/jpeg' as const, bytes, received: signedInAt };
      await db
        .insertInto('photo')
        .values({ ...photo, ...rest })
        .execute();
    }
  }
  await signInAs(site, boss.email);
  return { site, remove, trainer, boss, mira, farTrainer, farOne };
}

let two: Awaited<ReturnType<typeof makeTwo>>;
beforeAll(async () => {
  two = await makeTwo();
});
afterAll(() => two.remove());

async function take(viewer: Viewer): Promise<string> {
  const pieces: string[] = [];
  // written out piece by piece, all of it asked by this workshop alone
  askByDefault(viewer);
  for await (const piece of granted(organisationData(viewer, two.site, AT))) pieces.push(piece);
  askByDefault('site');
  return pieces.join('');
}

describe('the export of a whole workshop', () => {
  it('is given to its employer alone', () => {
    expect(refused(organisationData(null, two.site)).status).toBe(403);
    expect(refused(organisationData(two.trainer, two.site)).status).toBe(403);
    expect(refused(organisationData(two.mira, two.site)).status).toBe(403);
  });

  it('holds every record of it as stored, with its place and the leaf hash of RFC 6962', async () => {
    const data = JSON.parse(await take(two.boss));
    const rows = await two.site.store.db
      .selectFrom('event')
      .select(['seq', 'json'])
      .where('org', '=', two.boss.org)
      .orderBy('seq')
      .execute();
    expect(data.events).toEqual(
      rows.map(({ seq, json }) => ({
        index: seq,
        leafHash: toHex(storedLeafHash(json)),
        broken: null,
        text: json,
      })),
    );
    expect(data.takenAt).toBe(AT.toISOString());
    expect(data.organisation).toEqual({ id: two.boss.org, name: 'Test Shop' });
    expect(data.log.checkpoint).toBe(await two.site.store.checkpoint());
    expect(data.log.size).toBeGreaterThan(rows.length);
  });

  it('holds its people, groups, photos, words and links, and says of every table what it is', async () => {
    const { tables, parts } = JSON.parse(await take(two.boss));
    const counts = Object.fromEntries(
      Object.entries(tables).map(([name, rows]) => [name, (rows as unknown[]).length]),
    );
    expect(counts).toEqual({
      organisation: 1,
      retention_choice: 0,
      membership: 3,
      user: 3,
      person_group: 1,
      person_group_member: 1,
      invitation: 3,
      reset_link: 0,
      share_link: 0,
      earlier_training: 1,
      erasure_wish: 0,
      photo: 2,
    });
    expect(tables.photo.map(({ bytes }: { bytes: string }) => bytes)).toEqual(['AQID', 'AQID']);
    for (const name of Object.keys(tables)) expect(parts.tables[name].is).toMatch(/\.$/);
  });

  it('holds no row of another workshop, and nothing that would open something', async () => {
    const text = await take(two.boss);
    expect(text).toContain('Course of Mira Holt');
    expect(text).not.toMatch(FAR);
    for (const id of [two.farTrainer.org, two.farTrainer.person, two.farOne.person]) {
      expect(text).not.toContain(id);
    }
    expect(text).not.toMatch(/"(tokenHash|token|password|sealedSecret|codeHash|userAgent)":/);
    const far = await take({ ...two.farTrainer, role: 'employer' });
    expect(far).toMatch(FAR);
    expect(far).not.toMatch(/Mira Holt|Anna Weir|Test Shop/);
  });

  it('leaves to each person what the site shows to that person alone', async () => {
    const answer = { person: two.mira.person, id: newId(), lesson: 'rip', question: 'q', right: 1 };
    const at = AT.toISOString();
    const { db } = two.site.store;
    await db
      .insertInto('learning_answer')
      .values({ ...answer, at, received: at })
      .execute();
    expect(await take(two.boss)).not.toContain(answer.id);
    expect(JSON.stringify(granted(await ownData(two.mira, two.site)))).toContain(answer.id);
  });

  it('is the same to the byte when the same state is taken again', async () => {
    expect(await take(two.boss)).toBe(await take(two.boss));
  });
});
