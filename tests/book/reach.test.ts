import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { type ListedPerson, listPeople, type Site } from '../../src/accounts/index.ts';
import {
  addDays,
  authorisationsOf,
  benchStateOf,
  dayOf,
  dueOf,
  type LogEvent,
  registerOf,
  rulesOf,
  statusOf,
} from '../../src/competence/index.ts';
import { listAuthorisations } from '../../src/pages/_desk/authorise/list.ts';
import { authorisedAt } from '../../src/pages/_desk/authorised-at.ts';
import { dueFor, dueOfAll } from '../../src/pages/_desk/due-list.ts';
import { kitOf } from '../../src/pages/_desk/kit-of.ts';
import { pageOf } from '../../src/pages/_desk/people-page.ts';
import { shopOf, standingOf, withPeople, workshopOf } from '../../src/pages/_desk/workshop.ts';
import { newId } from '../../src/records/index.ts';
import { sayIn } from '../../src/words/say.ts';
import { openDemoWithLeave } from './demo-with-leave.ts';

/*
 * A page reads what it needs of the log. The oracle here is the whole log, read without any filter and given to
 * the same rules: whatever is left out must change no answer.
 */

const say = sayIn('en');
const now = () => new Date().toISOString();
const today = dayOf(now());
let site: Site;
let remove: () => Promise<void>;
let org = '';
let whole: LogEvent[] = [];
let people: ListedPerson[] = [];
let leave = '';
const named = (name: string): string => people.find((one) => one.name === name)?.person ?? '';
const enter = (kind: string, by: string, about: string, body: object, id = newId()) =>
  site.store.append({ id, kind, version: 1, org, at: now(), by, about, body } as never);

beforeAll(async () => {
  const demo = await openDemoWithLeave();
  ({ site, org, leave, remove } = demo);
  people = await listPeople(org, site);
  await demo.signOff('Tom Okafor');
  const { benches } = await shopOf(org, site);
  const [one, two] = benches.map(({ id }) => id);
  const ruth = named('Ruth Amsel');
  await enter('bench.checked', named('Mira Holt'), one ?? '', {
    ...{ bench: one, list: 'daily', listVersion: 1, verdict: 'fit' },
    checks: [{ id: 'guard', result: 'sound', note: null }],
  });
  await enter('bench.taken-out', ruth, two ?? '', { bench: two, reason: 'Cracked insert' });
  const session = newId();
  await enter(
    'practice.noted',
    named('Tom Okafor'),
    named('Tom Okafor'),
    {
      ...{ session, bench: one, work: 'rip', supervisor: ruth, done: 'Six rips' },
      startedAt: `${addDays(today, -2)}T08:00:00.000Z`,
      endedAt: `${addDays(today, -2)}T09:00:00.000Z`,
    },
    session,
  );
  whole = (await site.store.events({ org })).flatMap(({ event }) => event ?? []);
}, 60_000);
afterAll(() => remove());

describe('what a page reads of the log', () => {
  it('lets everything that is due be told as the whole log tells it', async () => {
    const workshop = await workshopOf(org, site, {}, say);
    const at = now();
    const { benches, nameOf, units } = workshop;
    const expected = dueOf({ at, events: whole, people, benches, units, nameOf });
    const { due: told } = await dueOfAll(workshop, { at, whose: workshop.people }, site);
    const ids = (all: readonly { readonly id: string; readonly text: string }[]) =>
      all.map(({ id, text }) => `${id} ${text}`).sort();
    expect(ids(told)).toEqual(ids(expected));
    const kinds = new Set(told.map(({ kind }) => kind));
    expect(kinds).toEqual(new Set(['authorisation-ends', 'bench-out', 'practice']));
  });

  it('tells a trainee what is due for them and nothing of anybody else', async () => {
    const workshop = await workshopOf(org, site, {}, say);
    const reader = { org, person: named('Mira Holt'), role: 'trainee' as const };
    const asked = { at: now(), whose: workshop.people };
    const { due: own } = await dueFor(workshop, reader, asked, site);
    expect(own.map(({ kind, person }) => [kind, person])).toEqual([
      ['authorisation-ends', reader.person],
    ]);
  });

  it('lets every standing and authorisation be as in the whole log', async () => {
    const at = now();
    for (const { person } of people) {
      const workshop = await workshopOf(org, site, { people: [person] }, say);
      const { nameOf, units } = workshop;
      const asked = { person, at, units, nameOf };
      for (const bench of workshop.benches) {
        for (const work of bench.work) {
          const question = { ...asked, bench: bench.id, work };
          expect(standingOf(workshop, question)).toEqual(statusOf({ ...question, events: whole }));
        }
      }
      expect(listAuthorisations(workshop, at, [person]).map(({ status }) => status)).toEqual(
        authorisationsOf({ ...asked, events: whole }),
      );
    }
  });

  it('holds the register, its service and its checks', async () => {
    const at = now();
    const benches = registerOf(whole);
    const ids = benches.map(({ id }) => id);
    const shop = await shopOf(org, site, { checksOf: ids });
    expect(shop.benches).toEqual(benches);
    expect(rulesOf(shop.events, at)).toEqual(rulesOf(whole, at));
    for (const id of ids) {
      expect(benchStateOf(shop.events, id, at)).toEqual(benchStateOf(whole, id, at));
    }
    expect(benchStateOf(shop.events, ids[0] ?? '', at).checks).toHaveLength(1);
  });

  it('counts who holds leave at a bench by what has ended of it', async () => {
    const shop = await shopOf(org, site);
    const [one = '', two = ''] = shop.benches.map(({ id }) => id);
    expect(await authorisedAt(shop, one, now(), site)).toEqual([named('Mira Holt')]);
    expect(await authorisedAt(shop, two, now(), site)).toEqual([]);
    const late = `${addDays(today, 26)}T00:00:00.000Z`;
    expect(await authorisedAt(shop, one, late, site)).toEqual([]);
  });

  it('gives a trainer’s device the practicals of the whole log', async () => {
    const ruth = named('Ruth Amsel');
    const viewer = { org, person: ruth, role: 'trainer', name: 'Ruth Amsel', email: '' } as const;
    const kit = await kitOf({ ...viewer, signedInAt: now() }, site);
    const signed = whole.filter(({ kind }) => kind === 'practical.signed');
    expect(kit.ok && kit.value.signed).toHaveLength(signed.length);
    expect(kit.ok && kit.value.out).toMatchObject([{ reason: 'Cracked insert' }]);
  });

  it('reads nobody’s records who was not asked for', async () => {
    const bare = await shopOf(org, site);
    const own = /^(practical|practice|authorisation|appeal)\./;
    expect(bare.events.filter(({ kind }) => own.test(kind))).toEqual([]);
    const tom = await withPeople(bare, [named('Tom Okafor')], site);
    const abouts = tom.events.filter(({ kind }) => own.test(kind)).map(({ about }) => about);
    expect(new Set(abouts)).toEqual(new Set([named('Tom Okafor')]));
  });

  it('reads the checks somebody did, and the roles of whoever signed for them', async () => {
    const bare = await shopOf(org, site);
    const mira = await withPeople(bare, [named('Mira Holt')], site);
    const of = (events: readonly LogEvent[], kind: string) =>
      events.filter((one) => one.kind === kind);
    expect(of(bare.events, 'bench.checked')).toEqual([]);
    expect(of(mira.events, 'bench.checked').map(({ by }) => by)).toEqual([named('Mira Holt')]);
    const known = new Set(of(mira.events, 'person.joined').map(({ about }) => about));
    const signers = mira.events.map(({ by }) => by);
    expect(signers.filter((by) => !known.has(by))).toEqual([]);
    expect(of(bare.events, 'person.joined').map(({ about }) => about)).not.toContain(
      named('Anna Weir'),
    );
  });

  it('shows a reader their own alone, though others are in the workshop', async () => {
    const workshop = await workshopOf(org, site, { people: people.map(({ person }) => person) });
    const reader = { org, person: named('Tom Okafor'), role: 'trainee' as const };
    expect((await dueFor(workshop, reader, { at: now(), whose: people }, site)).due).toEqual([]);
  });

  it('sees an end that was entered since', async () => {
    const { benches } = await shopOf(org, site);
    const [one = ''] = benches.map(({ id }) => id);
    await enter('authorisation.ended', named('Ruth Amsel'), named('Mira Holt'), {
      authorisation: leave,
      reason: 'The test is over',
    });
    expect(await authorisedAt(await shopOf(org, site), one, now(), site)).toEqual([]);
  });
});

describe('a page of people', () => {
  const all = Array.from({ length: 7 }, (_, i) => i);
  it.each([
    [null, 1, [0, 1, 2]],
    ['2', 2, [3, 4, 5]],
    ['3', 3, [6]],
    ['99', 3, [6]],
    ['0', 1, [0, 1, 2]],
    ['-4', 1, [0, 1, 2]],
    ['two', 1, [0, 1, 2]],
    ['Infinity', 1, [0, 1, 2]],
  ])('asked for %s is page %i', (asked, page, shown) => {
    expect(pageOf(all, asked, 3)).toEqual({ shown, page, pages: 3 });
  });
  it('is one page where there is nobody', () => {
    expect(pageOf([], null, 3)).toEqual({ shown: [], page: 1, pages: 1 });
  });
});
