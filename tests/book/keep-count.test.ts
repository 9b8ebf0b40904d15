import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import type { Site } from '../../src/accounts/index.ts';
import {
  addDays,
  authorisationsOf,
  dayOf,
  dueOf,
  type LogEvent,
} from '../../src/competence/index.ts';
import { countLeave, findLeave } from '../../src/pages/_desk/authorise/find-leave.ts';
import { dueOfAll } from '../../src/pages/_desk/due-list.ts';
import { keepCount } from '../../src/pages/_desk/keep-count.ts';
import { workshopOf } from '../../src/pages/_desk/workshop.ts';
import { newId } from '../../src/records/index.ts';
import { openDemoWithLeave } from './demo-with-leave.ts';

/*
 * What was counted is kept. The oracle is the whole log, read anew without any filter and given to the same rules:
 * whatever was kept must say the same, on every day and after every event.
 */

const now = () => new Date().toISOString();
const today = dayOf(now());
let site: Site;
let remove: () => Promise<void>;
let org = '';
let leave = '';
let bench = '';
let people: Awaited<ReturnType<typeof workshopOf>>['people'] = [];
const named = (name: string): string => people.find((one) => one.name === name)?.person ?? '';
const enter = (kind: string, by: string, about: string, body: object, id = newId()) =>
  site.store.append({ id, kind, version: 1, org, at: now(), by, about, body } as never);
const practise = (who: string) => {
  const session = newId();
  const startedAt = new Date(Date.now() - 3_600_000).toISOString();
  const times = { startedAt, endedAt: now() };
  const supervisor = named('Ruth Amsel');
  const body = { session, bench, work: 'rip', supervisor, done: 'Six rips', ...times };
  return enter('practice.noted', named(who), named(who), body, session);
};

beforeAll(async () => {
  const demo = await openDemoWithLeave();
  ({ site, org, leave, remove } = demo);
  const workshop = await workshopOf(org, site);
  people = workshop.people;
  bench = workshop.benches[0]?.id ?? '';
  await demo.signOff('Tom Okafor');
}, 60_000);
afterAll(() => remove());

const readLog = async (): Promise<LogEvent[]> =>
  (await site.store.events({ org })).flatMap(({ event }) => event ?? []);
const ids = (all: readonly { readonly id: string; readonly text: string }[]) =>
  all.map(({ id, text }) => `${id} ${text}`).sort();

async function dueByWholeLog(at: string): Promise<string[]> {
  const { benches, nameOf, units } = await workshopOf(org, site);
  return ids(dueOf({ at, benches, nameOf, people, units, events: await readLog() }));
}
async function dueAsKept(at: string): Promise<string[]> {
  const asked = { at, whose: people, patience: Number.POSITIVE_INFINITY };
  return ids((await dueOfAll(await workshopOf(org, site), asked, site)).due);
}
async function leaveByWholeLog(at: string): Promise<string[]> {
  const { nameOf, units } = await workshopOf(org, site);
  const events = await readLog();
  return people
    .flatMap(({ person }) => authorisationsOf({ at, events, nameOf, person, units }))
    .map(({ statement, state }) => `${statement.who.person} ${state}`)
    .sort();
}
async function leaveAsKept(at: string): Promise<string[]> {
  const asked = { org, instant: at, isNow: true };
  const { found } = await countLeave(asked, site, Number.POSITIVE_INFINITY);
  return [...found]
    .flatMap(([person, leaves]) => leaves.map(({ state }) => `${person} ${state}`))
    .sort();
}

describe('a count that is kept', () => {
  const EVENTS: [string, () => Promise<unknown>][] = [
    ['nothing yet', async () => {}],
    ['practice of another', () => practise('Tom Okafor')],
    [
      'a suspension',
      () =>
        enter('authorisation.suspended', named('Ruth Amsel'), named('Mira Holt'), {
          ...{ authorisation: leave, cause: 'other', reason: 'Guard left up' },
        }),
    ],
    [
      'a refresh',
      () =>
        enter('authorisation.refreshed', named('Ruth Amsel'), named('Mira Holt'), {
          ...{ authorisation: leave, how: 'talked-through', signoff: null, note: 'Gone through' },
        }),
    ],
    [
      'a machine taken out',
      () => enter('bench.taken-out', named('Ruth Amsel'), bench, { bench, reason: 'Cracked' }),
    ],
    [
      'a near miss there',
      () => {
        const said = { what: 'The work rose at the back', work: 'rip', hurt: 'nobody' };
        const body = { bench, people: [], happenedAt: now(), ...said };
        return enter('near-miss.reported', named('Ruth Amsel'), bench, body);
      },
    ],
    [
      'new rules',
      () =>
        enter('organisation.rules-set', named('Anna Weir'), org, {
          ...{ months: 36, breakMonths: 12, noticeDays: 14, second: 'nothing' },
        }),
    ],
    [
      'its end',
      () =>
        enter('authorisation.ended', named('Ruth Amsel'), named('Mira Holt'), {
          ...{ authorisation: leave, reason: 'The test is over' },
        }),
    ],
  ];
  it.each(EVENTS)('says what the whole log says after %s', async (_what, happen) => {
    await happen();
    const at = now();
    expect(await dueAsKept(at)).toEqual(await dueByWholeLog(at));
    expect(await leaveAsKept(at)).toEqual(await leaveByWholeLog(at));
  });

  it('finds people by what was kept, and lists the whole page of them', async () => {
    const none = { person: '', bench: '', work: '', state: '' };
    const find = (filter: Partial<typeof none>, day = today) => {
      const asked = { org, day, now: now(), filter: { ...none, ...filter } };
      return findLeave(asked, site, Number.POSITIVE_INFINITY);
    };
    const mira = named('Mira Holt');
    expect(await find({ state: 'ended' })).toMatchObject({ holders: [mira], total: 1 });
    expect(await find({ state: 'rests' })).toMatchObject({ holders: [], total: 0 });
    expect(await find({ bench })).toMatchObject({ holders: [mira] });
    expect(await find({ bench: 'b-none' })).toMatchObject({ holders: [] });
    expect(await find({ work: 'groove' })).toMatchObject({ holders: [] });
    expect(await find({}, addDays(today, -40))).toMatchObject({ holders: [], total: 0 });
    expect(await find({})).toMatchObject({ holders: [mira], total: 1, all: 0 });
    expect(await find({ person: 'p-none', state: 'rests' })).toMatchObject({ holders: ['p-none'] });
  });
});

describe('a day that begins', () => {
  const zone = process.env['TZ'];
  afterAll(() => {
    if (zone === undefined) delete process.env['TZ'];
    else process.env['TZ'] = zone;
  });
  const DAYS = [0, 1, 2, 29, 1065, 1094, 1095, 1096];
  // 14 hours before UTC and 11 after it: the widest there are (IANA time zone database, from memory)
  it.each(['UTC', 'Pacific/Kiritimati', 'Pacific/Pago_Pago'])(
    'has a count of its own from its first instant to its last, in UTC, with the clock of %s',
    async (name) => {
      process.env['TZ'] = name;
      await enter('organisation.rules-set', named('Anna Weir'), org, {
        ...{ months: 36, breakMonths: 12, noticeDays: 30, second: 'nothing' },
      });
      const told = new Set<string>();
      for (const after of DAYS) {
        const day = addDays(today, after);
        for (const time of after === 0 ? [now().slice(11)] : ['00:00:00.000Z', '23:59:59.999Z']) {
          const at = `${day}T${time}`;
          const kept = await dueAsKept(at);
          expect(kept, at).toEqual(await dueByWholeLog(at));
          expect(await leaveAsKept(at), at).toEqual(await leaveByWholeLog(at));
          told.add(kept.join());
        }
      }
      expect(told.size).toBeGreaterThan(2);
    },
    60_000,
  );
});

describe('what is worked out anew', () => {
  /** Counts nothing but notes of whom. */
  function listening(during: () => Promise<unknown> = async () => {}) {
    const worked: string[][] = [];
    const count = keepCount<{ org: string; instant: string; isNow: boolean }, number>({
      everybody: async () => people.map(({ person }) => person),
      async workOut(some, { read }) {
        worked.push([...some].sort());
        const own = (person: string) => read.events.filter(({ about }) => about === person).length;
        const found = new Map(some.map((person) => [person, own(person)]));
        await during();
        return found;
      },
    });
    const ask = (patience?: number) => count({ org, instant: now(), isNow: true }, site, patience);
    return { worked, ask };
  }
  const everybody = () => people.map(({ person }) => person).sort();

  it('is everybody once, nobody the second time, and then whom an event is about', async () => {
    const { ask, worked } = listening();
    expect(await ask()).toMatchObject({ done: people.length, all: people.length });
    await ask();
    await practise('Dev Pradhan');
    await ask();
    await ask();
    expect(worked).toEqual([everybody(), [named('Dev Pradhan')]]);
  });

  it('is everybody when an event bears on everybody', async () => {
    const { ask, worked } = listening();
    await ask();
    await enter('bench.returned', named('Ruth Amsel'), bench, { bench, done: 'New guard' });
    await ask();
    expect(worked).toEqual([everybody(), everybody()]);
  });

  it('is somebody again of whom something is entered while they are being worked out', async () => {
    let isEntered = false;
    const { ask, worked } = listening(async () => {
      if (isEntered) return;
      isEntered = true;
      await practise('Tom Okafor');
      // a second reader brings the count up to the log while the first is at work
      await ask(0);
    });
    await ask(60_000);
    const { found } = await ask(60_000);
    expect(worked).toEqual([everybody(), [named('Tom Okafor')]]);
    const own = (await readLog()).filter(({ about }) => about === named('Tom Okafor'));
    const bearing = own.filter(({ kind }) => !/^(invitation|attempt|sitting)\./.test(kind));
    expect(found.get(named('Tom Okafor'))).toBe(bearing.length);
  });

  it('is told as unfinished while it is, and goes on', async () => {
    let goOn = () => {};
    const held = new Promise<void>((resolve) => {
      goOn = resolve;
    });
    const { ask } = listening(() => held);
    expect(await ask(1)).toMatchObject({ done: 0, all: people.length });
    goOn();
    expect(await ask(Number.POSITIVE_INFINITY)).toMatchObject({ done: people.length });
  });

  it('is tried again after it failed', async () => {
    let fails = true;
    const { ask } = listening(async () => {
      if (fails) throw new Error('The database went away.');
    });
    await expect(ask(60_000)).rejects.toThrow('went away');
    fails = false;
    expect(await ask(60_000)).toMatchObject({ done: people.length, all: people.length });
  });

  it('waits for the count that takes its place when it waits for all of it', async () => {
    let isOut = false;
    const { ask, worked } = listening(async () => {
      if (isOut) return;
      isOut = true;
      await enter('bench.taken-out', named('Ruth Amsel'), bench, { bench, reason: 'Cracked' });
      await ask(0);
    });
    expect(await ask(Number.POSITIVE_INFINITY)).toMatchObject({ done: people.length });
    // the first count may be replaced before it has begun on anybody
    expect(worked.at(-1)).toEqual(everybody());
  });
});
