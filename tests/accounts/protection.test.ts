import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import {
  codesBegun,
  invite,
  LEVEL_OF_SET,
  LEVELS,
  levelOf,
  makeCalendarAddress,
  makeResetLink,
  organisationData,
  ownData,
  ownSessionOf,
  PROTECTION_LEVELS,
  SET_IDS,
  setUpCodes,
  TABLE_NAMES,
  TABLES_KEPT,
  type Viewer,
} from '../../src/accounts/index.ts';
import { newId } from '../../src/records/index.ts';
import { UNWALLED } from '../../src/store/walls.ts';
import {
  addMember,
  granted,
  makeTempSite,
  PASSWORD,
  requestWith,
  setUp,
  signInAs,
} from './temp-site.ts';

/** OWASP ASVS 5.0.0, 14.1.1, 14.1.2 and 14.2.4: levels of what is held, what each asks for, and that it is kept to. */
const AT = new Date();
let temp: Awaited<ReturnType<typeof makeTempSite>>;
let boss: Viewer;
/** What people were given or typed, that opens something. */
const given: Record<string, string> = { password: PASSWORD };
beforeAll(async () => {
  temp = await makeTempSite();
  const { site } = temp;
  const trainer = await setUp(site);
  boss = await addMember(site, trainer, 'employer', 'Anna Weir');
  const mira = await addMember(site, trainer, 'trainee', 'Mira Holt');
  const cookies = await signInAs(site, boss.email);
  given['session'] = /session_token=([^;]+)/.exec(cookies.join('\n'))?.[1] ?? '';
  const lastPart = (path: string) => (path.split('/').at(-1) ?? '').replace('.ics', '');
  const asked = { role: 'trainee', name: 'Jo Ash' } as const;
  given['invitation'] = lastPart(granted(await invite(trainer, asked, site)).path);
  const choice = { names: 'full', language: 'en' } as const;
  given['calendar'] = lastPart(granted(await makeCalendarAddress(boss, choice, site)));
  const reset = {
    id: newId(),
    person: mira.person,
    clears: 'password',
    password: PASSWORD,
  } as const;
  given['reset'] = lastPart(granted(await makeResetLink(trainer, reset, null, site, AT)).path);
  const session = await ownSessionOf(requestWith(cookies), site);
  if (session === null) throw new Error('no session');
  granted(await setUpCodes(session, 'Shop', site, AT));
  const about = { person: boss.person, email: boss.email, organisation: 'Shop' };
  given['codes'] = (await codesBegun(site, about))?.secret.replaceAll(' ', '') ?? '';
}, 60_000);
afterAll(() => temp.remove());

const columns = TABLE_NAMES.flatMap((table) =>
  TABLES_KEPT[table].columns.map((column: string) => ({
    table,
    column,
    level: levelOf(table, TABLES_KEPT[table], column),
  })),
);
const rowsOf = async (table: string): Promise<Record<string, unknown>[]> =>
  (await temp.site.store.db
    .selectFrom(table as 'user')
    .selectAll()
    .execute()) as never;

describe('the levels of protection', () => {
  it('are given to every set and column, and each is used', () => {
    expect(Object.keys(LEVEL_OF_SET).sort()).toEqual([...SET_IDS].sort());
    expect(new Set(columns.map(({ level }) => level))).toEqual(new Set(PROTECTION_LEVELS));
    for (const level of PROTECTION_LEVELS) expect(LEVELS[level].what.length).toBeGreaterThan(20);
  });

  it('are the highest for whatever a column that opens something can be called', () => {
    const named = columns.filter(({ column }) =>
      /token|secret|password|ticket|codeHash/i.test(column),
    );
    expect(named.length).toBeGreaterThan(10);
    const below = named
      // when a token of a library that is never used runs out
      .filter(({ column }) => !/ExpiresAt$/.test(column))
      .filter(({ level }) => level !== 'opens-something');
    expect(below).toEqual([]);
  });

  it('have a wall around every table that needs one', () => {
    const libraries = ['kysely_migration', 'kysely_migration_lock'];
    const needed = columns.filter(({ level }) => LEVELS[level].wall === 'needed');
    const open = [...UNWALLED, ...libraries];
    expect(needed.filter(({ table }) => open.includes(table))).toEqual([]);
  });
});

describe('what opens something', () => {
  it('lies nowhere as it was given', async () => {
    for (const [name, secret] of Object.entries(given)) {
      expect(secret.length, name).toBeGreaterThan(11);
    }
    const secrets = Object.values(given);
    const found: string[] = [];
    let read = 0;
    for (const { table, column } of columns) {
      for (const row of await rowsOf(table)) {
        read += 1;
        const text = String(row[column]);
        if (secrets.some((secret) => text.includes(secret))) found.push(`${table}.${column}`);
      }
    }
    expect(read).toBeGreaterThan(100);
    expect(found).toEqual([]);
  });

  it('is in no copy that a person or a workshop takes', async () => {
    const closed = columns.filter(({ level }) => LEVELS[level].copies === 'no');
    const values: string[] = [];
    for (const { table, column } of closed) {
      for (const row of await rowsOf(table)) {
        if (typeof row[column] === 'string' && row[column] !== '') values.push(row[column]);
      }
    }
    // a password for each of three, a session, a link of each kind, codes
    expect(values.length).toBeGreaterThan(6);
    let whole = JSON.stringify(await ownData(boss, temp.site));
    for await (const part of granted(organisationData(boss, temp.site))) whole += part;
    expect(whole).toContain('Mira Holt');
    const all = [...values, ...Object.values(given)];
    expect(all.filter((value) => whole.includes(value))).toEqual([]);
  });
});
