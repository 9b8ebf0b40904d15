import fc from 'fast-check';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import {
  checkEarlier,
  decodeList,
  earlierOf,
  enterEarlier,
  MOST_EARLIER,
  planEarlier,
  withdrawEarlier,
} from '../../src/accounts/index.ts';
import { newId } from '../../src/records/index.ts';
import { granted, makeWorkshop, refused } from './temp-site.ts';

const PEOPLE = [
  { person: 'p1', name: 'Mira Holt', email: 'mira@x.example' },
  { person: 'p2', name: 'Tom Okafor', email: 'tom@x.example' },
  { person: 'p3', name: 'Tom Okafor', email: 'tom.two@x.example' },
];
const plan = (text: string, stated: string[] = []) =>
  planEarlier(text, { people: PEOPLE, stated: new Set(stated) }, '2026-11-28');
const told = (text: string, stated?: string[]) =>
  plan(text, stated).problems.map(({ row, column, key }) => `${row} ${column} ${key}`);
const ROW = 'Mira Holt,Saws,saw bench,Ruth Amsel,2021-05-04,2024-05-04,Folder 3';

describe('the dry run of a table of earlier training', () => {
  it.each([
    ['no heading', ROW],
    [
      'English headings in another order',
      'day,person,training,machine,given by,until,paper\n2021-05-04,Mira Holt,Saws,saw bench,Ruth Amsel,2024-05-04,Folder 3',
    ],
    [
      'German headings, words and days, and semicolons',
      '\uFEFFPerson;Schulung;Maschine;Gegeben von;Tag;Gültig bis;Papier\r\nMira Holt;Saws;Tischkreissäge;Ruth Amsel;4.5.2021;04.05.2024;Folder 3\r\n',
    ],
    ['tabs', ROW.replaceAll(',', '\t')],
    ['an e-mail', ROW.replace('Mira Holt', 'MIRA@x.example')],
    ['an id', ROW.replace('Mira Holt', 'p1')],
  ])('reads %s', (_why, text) => {
    const { good, problems } = plan(text);
    expect(problems).toEqual([]);
    expect(good).toMatchObject([
      {
        person: 'p1',
        training: 'Saws',
        machine: 'saw-bench',
        givenBy: 'Ruth Amsel',
        day: '2021-05-04',
        until: '2024-05-04',
        paper: 'Folder 3',
      },
    ]);
  });

  it.each([
    ['nothing', ' \n', ['null null empty']],
    ['headings without person', 'training,day\nSaws,2021-05-04', ['null null no-person']],
    ['nobody', ROW.replace('Mira Holt', ''), ['1 person person.missing']],
    ['a stranger', ROW.replace('Mira Holt', 'Ida Quist'), ['1 person person.unknown']],
    ['two of one name', ROW.replace('Mira Holt', 'Tom Okafor'), ['1 person person.several']],
    ['no training', ROW.replace('Saws', ''), ['1 training training.missing']],
    ['a long training', ROW.replace('Saws', 'x'.repeat(121)), ['1 training training.long']],
    ['a formula', ROW.replace('Saws', '=HYPERLINK(1)'), ['1 training formula']],
    ['a formula by @', ROW.replace('Folder 3', '@SUM(1)'), ['1 paper formula']],
    ['a hidden sign', ROW.replace('Ruth Amsel', 'Ruth\u202EAmsel'), ['1 givenBy signs']],
    ['a NUL', ROW.replace('Ruth Amsel', 'Ruth\0Amsel'), ['1 givenBy signs']],
    ['an unknown machine', ROW.replace('saw bench', 'lathe'), ['1 machine machine.unknown']],
    ['a day that is none', ROW.replace('2021-05-04', '2021-02-30'), ['1 day day.none']],
    ['a day of 1949', ROW.replace('2021-05-04', '1949-12-31'), ['1 day day.none']],
    ['a day to come', ROW.replace('2021-05-04,2024-05-04', '2026-11-29,'), ['1 day day.later']],
    ['an end before', ROW.replace('2024-05-04', '2021-05-03'), ['1 until until.before']],
    ['torn quotes', `${ROW}\n"Mira`, ['2 null quotes']],
    ['a cell too many', `${ROW},more`, ['1 null cells']],
    ['the same twice', `${ROW}\n${ROW}`, ['2 null twice']],
  ])('says what is wrong with %s', (_why, text, expected) => {
    expect(told(text)).toEqual(expected);
  });

  it('takes 1,000 rows and refuses 1,001, and never reads 10 MB', () => {
    const rows = (count: number) =>
      Array.from({ length: count }, (_, i) => ROW.replace('Saws', `Saws ${i}`)).join('\n');
    expect(plan(rows(MOST_EARLIER)).good.length).toBe(MOST_EARLIER);
    expect(told(rows(MOST_EARLIER + 1))).toEqual(['null null rows']);
    expect(told('"'.repeat(10_000_000))).toEqual(['null null long']);
    expect(decodeList(new Uint8Array([77, 0, 105, 0]))).toBeNull();
  });

  it('never throws, and never counts a row both good and bad', () => {
    const bit = fc.constantFrom(',', ';', '\n', '"', 'p1', '=', 'saw bench', '2021-05-04', '\0');
    fc.assert(
      fc.property(fc.array(fc.oneof(bit, fc.string({ unit: 'binary' }))), (bits) => {
        const { good, problems } = plan(bits.join(''));
        const bad = new Set(problems.map(({ row }) => row));
        expect(good.filter(({ row }) => bad.has(row))).toEqual([]);
      }),
    );
  });
});

describe('entering earlier training', () => {
  let shop: Awaited<ReturnType<typeof makeWorkshop>>;
  beforeAll(async () => {
    shop = await makeWorkshop();
  });
  afterAll(() => shop.remove());
  const text = `${ROW}\n${ROW.replace('Saws', 'Guards').replace('Mira Holt', 'tom.okafor@x.example')}`;
  const check = async (form: string, table = text) =>
    granted(await checkEarlier(shop.trainer, { form, text: table }, shop.site));
  const count = async () => (await earlierOf(shop.trainer.org, shop.site)).length;

  it('is for trainers', async () => {
    const found = await check(newId());
    for (const viewer of [shop.mira, shop.boss, null]) {
      const asked = { form: newId(), text };
      expect(refused(await checkEarlier(viewer, asked, shop.site)).status).toBe(403);
      expect(refused(await enterEarlier(viewer, newId(), found, shop.site)).status).toBe(403);
    }
    expect(await count()).toBe(0);
  });

  it('enters nothing in the dry run and each row once, however often and at once it is sent', async () => {
    const form = newId();
    const found = await check(form);
    expect(await count()).toBe(0);
    const sent = await Promise.all(
      [1, 2, 3].map(() => enterEarlier(shop.trainer, form, found, shop.site)),
    );
    expect(sent.map(granted)).toEqual([2, 2, 2]);
    expect(await count()).toBe(2);
    // the same form says what it said; another one knows them
    expect((await check(form)).good.length).toBe(2);
    expect((await check(newId())).problems.map(({ key }) => key)).toEqual(['stated', 'stated']);
    const other = await check(form, ROW.replace('Saws', 'Dust'));
    expect(refused(await enterEarlier(shop.trainer, form, other, shop.site)).status).toBe(409);
    expect(await count()).toBe(2);
  });

  it('keeps words out of the log, and shows changed words as lost', async () => {
    const { store } = shop.site;
    const { org } = shop.trainer;
    const stated = await store.events({ org, kinds: ['earlier.stated'] });
    expect(stated.map(({ text: json }) => json).join()).not.toMatch(/Saws|Guards|Amsel|Folder/);
    const [mine] = await earlierOf(org, shop.site, shop.mira.person);
    expect(mine?.words).toEqual({ training: 'Saws', givenBy: 'Ruth Amsel', paper: 'Folder 3' });
    await store.db
      .updateTable('earlier_training')
      .set({ training: 'All machines' })
      .where('event', '=', mine?.id ?? '')
      .execute();
    expect((await earlierOf(org, shop.site, shop.mira.person))[0]?.words).toBeNull();
  });

  it('takes a row back once, with its words', async () => {
    const { org, person: trainer } = shop.trainer;
    const [mine] = await earlierOf(org, shop.site, shop.mira.person);
    const input = { id: newId(), stated: mine?.id, reason: 'wrong-person' };
    expect(refused(await withdrawEarlier(shop.mira, input, shop.site)).status).toBe(403);
    expect(
      refused(await withdrawEarlier(shop.trainer, { ...input, reason: 'x' }, shop.site)).path,
    ).toBe('reason');
    for (const again of [input, { ...input, id: newId() }]) {
      expect(granted(await withdrawEarlier(shop.trainer, again, shop.site))).toBe(shop.mira.person);
    }
    expect(await earlierOf(org, shop.site, shop.mira.person)).toEqual([]);
    const taken = await shop.site.store.events({ org, kinds: ['earlier.withdrawn'], by: trainer });
    expect(taken.length).toBe(1);
  });
});
