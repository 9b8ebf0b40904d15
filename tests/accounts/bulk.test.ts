import fc from 'fast-check';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import {
  checkList,
  decodeList,
  invitationsOf,
  inviteMany,
  type KnownPeople,
  MOST_ROWS,
  planInvitations,
  readList,
  writeLinks,
} from '../../src/accounts/index.ts';
import { newId } from '../../src/records/index.ts';
import { granted, makeWorkshop, refused } from './temp-site.ts';

const NOBODY: KnownPeople = { members: [], invited: [], groups: [] };
const plan = (text: string, known = NOBODY, groups: 'make' | 'refuse' = 'make') =>
  planInvitations(text, known, groups);
const told = (text: string, known?: Parameters<typeof plan>[1], groups?: 'make' | 'refuse') =>
  plan(text, known, groups).problems.map(({ row, column, key }) => `${row} ${column} ${key}`);

describe('the dry run of a list', () => {
  it.each([
    ['commas', 'name,role,group\nIda Quist,trainee,Class A'],
    ['semicolons', 'name;role;group\r\nIda Quist;trainee;Class A\r\n'],
    ['tabs', 'Name\tRole\tGroup\nIda Quist\ttrainee\tClass A'],
    ['no heading', 'Ida Quist,trainee,Class A'],
    ['another order, in German', 'Gruppe;Rolle;Name\nClass A;lernend;Ida Quist'],
    ['the mark of UTF-8 and quotes', '\uFEFFname,role,group\n"Ida Quist","trainee","Class A"'],
    ['empty lines', '\n\nIda Quist,trainee,Class A\n\n,,\n'],
  ])('reads a list with %s', (_why, text) => {
    const { good, problems, newGroups } = plan(text);
    expect(problems).toEqual([]);
    expect(good).toMatchObject([{ name: 'Ida Quist', role: 'trainee', group: 'Class A' }]);
    expect(newGroups).toEqual(['Class A']);
  });

  it.each([
    ['nothing', ' \n ', ['null null empty']],
    ['a heading alone', 'name,role,group\n', ['null null empty']],
    ['no name column', 'role,group\ntrainee,A', ['null null no-name']],
    ['a name left out', ',trainee,', ['1 name name.missing']],
    ['a long name', `${'x'.repeat(81)},trainee,`, ['1 name name.long']],
    ['a hidden sign', 'Ida\u202EQuist,trainee,', ['1 name name.signs']],
    ['the same person twice', 'Ida Quist,trainee\nida  quist,trainer', ['2 name name.twice']],
    ['no role', 'Ida Quist,,', ['1 role role.missing']],
    ['an unknown role', 'Ida Quist,boss,', ['1 role role.unknown']],
    ['a long group', `Ida Quist,trainee,${'x'.repeat(81)}`, ['1 group group.long']],
    ['torn quotes', 'Ida Quist,trainee,\n"Al Bo,trainee,', ['2 null quotes']],
    ['a cell too many', 'Ida Quist,trainee,A,B', ['1 null cells']],
    [
      'two faults in a row, one sentence each',
      'name,role\n,boss',
      ['2 name name.missing', '2 role role.unknown'],
    ],
  ])('says what is wrong with %s', (_why, text, expected) => {
    expect(told(text)).toEqual(expected);
  });

  it('knows who is here, who is invited and which groups there are', () => {
    const known = { members: ['Mira Holt'], invited: ['Tom Okafor'], groups: ['Class A'] };
    const text = 'mira holt,trainee,class a\nTom Okafor,trainee,\nIda Quist,trainee,Class B';
    expect(told(text, known, 'refuse')).toEqual([
      '1 name name.member',
      '2 name name.invited',
      '3 group group.unknown',
    ]);
    expect(plan(text, known, 'make').newGroups).toEqual(['Class B']);
    expect(plan('Ida Quist,trainee,CLASS A', known).good[0]?.group).toBe('Class A');
  });

  it('takes 500 rows and refuses 501', () => {
    const rows = (count: number) =>
      Array.from({ length: count }, (_, i) => `Person ${i},trainee`).join('\n');
    expect(plan(rows(MOST_ROWS)).good.length).toBe(MOST_ROWS);
    expect(told(rows(MOST_ROWS + 1))).toEqual(['null null rows']);
    expect(readList('x'.repeat(200_001)).problems[0]?.key).toBe('long');
  });

  it('reads UTF-8 and nothing else', () => {
    const utf8 = new TextEncoder().encode('Zoë Grün,trainee');
    expect(decodeList(utf8)).toBe('Zoë Grün,trainee');
    expect(decodeList(Uint8Array.from(Buffer.from('Zoë Grün', 'latin1')))).toBeNull();
    expect(decodeList(Uint8Array.from(Buffer.from('Zoe', 'utf16le')))).toBeNull();
  });

  it('never throws, and never counts a row both good and bad', () => {
    fc.assert(
      fc.property(fc.string({ maxLength: 300, unit: 'binary' }), (text) => {
        const { good, problems } = plan(text);
        const bad = new Set(problems.map(({ row }) => row));
        expect(good.filter(({ row }) => bad.has(row))).toEqual([]);
      }),
    );
  });
});

describe('inviting a list', () => {
  let shop: Awaited<ReturnType<typeof makeWorkshop>>;
  beforeAll(async () => {
    shop = await makeWorkshop();
  });
  afterAll(() => shop.remove());
  const count = async () => (await invitationsOf(shop.trainer.org, shop.site)).length;
  const check = async (form: string, text: string) =>
    granted(await checkList(shop.trainer, { form, text, groups: 'make' }, shop.site));

  it('is for trainers', async () => {
    const asked = { form: newId(), text: 'Ida Quist,trainee', groups: 'make' as const };
    const found = plan(asked.text);
    for (const viewer of [shop.mira, shop.boss, null]) {
      expect(refused(await checkList(viewer, asked, shop.site)).status).toBe(403);
      expect(refused(await inviteMany(viewer, newId(), found, shop.site)).status).toBe(403);
    }
  });

  it('makes nothing in the dry run, and each link once however often the form is sent', async () => {
    const form = newId();
    const text = 'name,role,group\nIda Quist,trainee,Class A\nOle Brandt,trainer,Class A';
    const before = await count();
    const found = await check(form, text);
    expect(await count()).toBe(before);
    const first = granted(await inviteMany(shop.trainer, form, found, shop.site));
    const again = granted(await inviteMany(shop.trainer, form, await check(form, text), shop.site));
    expect(first.map(({ name }) => name)).toEqual(['Ida Quist', 'Ole Brandt']);
    expect(again).toEqual(first);
    expect(new Set(first.map(({ path }) => path)).size).toBe(2);
    expect(await count()).toBe(before + 2);
    const other = await check(form, 'Una Frey,trainee');
    expect(refused(await inviteMany(shop.trainer, form, other, shop.site)).status).toBe(409);
    expect(await count()).toBe(before + 2);
    // to another form these people are invited already
    expect((await check(newId(), text)).problems.map(({ key }) => key)).toEqual([
      'name.invited',
      'name.invited',
    ]);
  });

  it('makes the same links when it is sent twice at once', async () => {
    const form = newId();
    const found = await check(form, 'Kai Lund,trainee\nBea Noll,trainee');
    const before = await count();
    const [one, two] = await Promise.all([
      inviteMany(shop.trainer, form, found, shop.site),
      inviteMany(shop.trainer, form, found, shop.site),
    ]);
    expect(granted(one)).toEqual(granted(two));
    expect(await count()).toBe(before + 2);
  });
});

it('writes no cell that a spreadsheet runs as a formula (OWASP, CSV injection)', () => {
  const csv = writeLinks(
    [
      {
        name: '=HYPERLINK("x")',
        role: 'trainee',
        group: '@home',
        path: '/invitation/a',
        expires: '2026-12-05T00:00:00.000Z',
      },
    ],
    ['Name', 'Role', 'Group', 'Link', 'Until'],
    (path) => `http://localhost${path}`,
  );
  expect(csv).toBe(
    '\uFEFFName,Role,Group,Link,Until\r\n"\'=HYPERLINK(""x"")",trainee,"\'@home",http://localhost/invitation/a,2026-12-05\r\n',
  );
});
