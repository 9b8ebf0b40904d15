import Papa from 'papaparse';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import type { Site, Viewer } from '../../src/accounts/index.ts';
import { matrixAt } from '../../src/competence/index.ts';
import { readAsked, writeAsked } from '../../src/components/matrix/read-asked.ts';
import { countPeople } from '../../src/pages/_desk/matrix/count-people.ts';
import { matrixFor, reachOf } from '../../src/pages/_desk/matrix/matrix-for.ts';
import { writeMatrixCsv } from '../../src/pages/_desk/matrix/write-csv.ts';
import { newId } from '../../src/records/index.ts';
import { sayIn } from '../../src/words/say.ts';
import { wholeWorkshop } from '../helpers/whole-workshop.ts';
import { openDemoWithLeave } from './demo-with-leave.ts';

const say = sayIn('en');
const ask = (query = '') => readAsked(new URLSearchParams(query)).asked;

let site: Site;
let remove: () => Promise<void>;
let viewer: Pick<Viewer, 'org'>;
let leave = '';
let mira = '';

beforeAll(async () => {
  const { org, ...demo } = await openDemoWithLeave();
  ({ site, leave, remove } = demo);
  viewer = { org };
  mira = (await people()).find(({ name }) => name === 'Mira Holt')?.person ?? '';
}, 60_000);
afterAll(() => remove());

const people = async () => (await wholeWorkshop(viewer.org, site)).people;
const rowsOf = async (query = '') => {
  const view = await matrixFor(viewer, ask(query), site, say);
  return view.rows.map(
    ({ name, cells }) => `${name}: ${cells.map(({ state }) => state).join(' ')}`,
  );
};
const csvOf = async (query = '') => {
  const reach = await reachOf(viewer, ask(query), site, say, 60_000);
  const about = {
    org: viewer.org,
    organisation: 'Alder Lane Joinery',
    checkpoint: await site.store.checkpoint(),
    say,
  };
  let named = '';
  for await (const part of writeMatrixCsv(reach, { ...about, names: 'names' }, site)) named += part;
  let bare = '';
  for await (const part of writeMatrixCsv(reach, { ...about, names: 'none' }, site)) bare += part;
  return { named, bare, about };
};

describe('a page of the matrix', () => {
  it('says what the whole log says, and reads fewer events', async () => {
    const workshop = await wholeWorkshop(viewer.org, site);
    const view = await matrixFor(viewer, ask(), site, say);
    const whole = matrixAt({ ...workshop, people: workshop.people }, view.instant);
    const states = (
      cells: readonly { person: string; bench: string; work: string; state: string }[],
    ) => cells.map((one) => `${one.person} ${one.bench} ${one.work} ${one.state}`).sort();
    expect(states(view.rows.flatMap(({ cells }) => cells))).toEqual(states(whole.cells));
    expect(view.places).toEqual(whole.places);
    expect(view.rows.map(({ name }) => name)).toEqual([
      'Dev Pradhan',
      'Jess Lindqvist',
      'Mira Holt',
      'Ruth Amsel',
      'Tom Okafor',
    ]);
  });

  it('is narrowed by a part of a name, a bench, work and state', async () => {
    expect(await rowsOf('person=mira&work=rip')).toEqual(['Mira Holt: may may-not']);
    expect(await rowsOf('state=may')).toEqual(['Mira Holt: may may-not may-not may-not']);
    expect(await rowsOf('state=due-30&work=rip')).toHaveLength(1);
    expect(await rowsOf('state=rests')).toEqual([]);
    expect(await rowsOf('state=may-not')).toHaveLength(5);
    const gaps = await matrixFor(viewer, ask('state=gap'), site, say);
    expect(gaps.places.map(({ gap }) => gap)).toEqual(['one', 'nobody', 'nobody', 'nobody']);
  });

  it('keeps its count up by new events alone, and counts anew when a machine goes out', async () => {
    const asked = {
      ...{ org: viewer.org, instant: new Date().toISOString(), isNow: true, known: 'now' as const },
      units: (await wholeWorkshop(viewer.org, site)).units,
    };
    const state = async () => (await countPeople(asked, site)).found.get(mira)?.[0]?.state;
    const enter = (kind: string, about: string, body: object) =>
      site.store.append({
        ...{ id: newId(), kind, version: 1, org: viewer.org, at: new Date().toISOString() },
        ...{ by: by(), about, body },
      } as never);
    const all = await people();
    const by = () => all.find(({ name }) => name === 'Ruth Amsel')?.person ?? '';
    expect(await state()).toBe('may');
    await enter('authorisation.suspended', mira, {
      ...{ authorisation: leave, cause: 'other', reason: 'Guard left up.' },
    });
    expect(await state()).toBe('rests');
    await enter('authorisation.refreshed', mira, {
      ...{ authorisation: leave, how: 'talked-through', signoff: null, note: 'Gone through.' },
    });
    expect(await state()).toBe('may');
    const [bench] = (await wholeWorkshop(viewer.org, site)).benches;
    await enter('bench.taken-out', bench?.id ?? '', { bench: bench?.id, reason: 'Cracked.' });
    expect(await state()).toBeUndefined();
    await enter('bench.returned', bench?.id ?? '', { bench: bench?.id, done: 'New guard.' });
    expect(await state()).toBe('may');
  });
});

describe('the filters of an address', () => {
  it('come back as they were written', () => {
    const query = '?on=2026-03-03&person=Mira&bench=b1&work=rip&state=due-60&known=then&page=3';
    expect(writeAsked(ask(query))).toBe(query);
    expect(writeAsked(ask(''))).toBe('');
    expect(writeAsked(ask('on=2026-03-03&time=14%3A30'))).toBe('?on=2026-03-03T14%3A30%3A00');
  });

  it('are told where a day or a time is none, and never answered for another', () => {
    const problems = (query: string) => readAsked(new URLSearchParams(query)).problems;
    expect(problems('on=2026-02-30')).toEqual([{ field: 'on', typed: '2026-02-30' }]);
    expect(problems('on=2026-02-03&time=25:00')).toEqual([{ field: 'time', typed: '25:00' }]);
    expect(problems('time=10:00')).toEqual([{ field: 'on', typed: '' }]);
    expect(problems('state=anything&page=x&known=ever')).toEqual([]);
  });
});

describe('the matrix as a table', () => {
  it('has as many fields in every line, with the instant, filters, limit sets and log above', async () => {
    const { named, about } = await csvOf('state=may');
    expect(named.startsWith('\uFEFF')).toBe(true);
    expect(named.endsWith('\r\n')).toBe(true);
    const { data, errors } = Papa.parse<string[]>(named.slice(1).trimEnd());
    expect(errors).toEqual([]);
    // RFC 4180 section 2, rule 4: each line should contain the same number of fields
    expect(new Set(data.map((line) => line.length))).toEqual(new Set([16]));
    const head = new Map(data.slice(0, 7).map(([name = '', value = '']) => [name, value]));
    expect(head.get('Chosen')).toBe('State: May work');
    expect(head.get('Signed state of the log')).toBe(about.checkpoint);
    expect(head.get('Limit set in force, by bench')).toMatch(/^AL-01: [\w-]+/);
    expect(Date.parse(head.get('As of (UTC)') ?? '')).not.toBeNaN();
    const lines = data.slice(9);
    expect(lines).toHaveLength(1);
    expect(lines[0]).toEqual(
      expect.arrayContaining([mira, 'Mira Holt', 'AL-01', 'ripping', 'may', leave, 'Anna Weir']),
    );
  });

  it('holds names only where they may be seen', async () => {
    const { bare } = await csvOf();
    expect(bare).toContain(mira);
    for (const name of ['Mira Holt', 'Ruth Amsel']) expect(bare).not.toContain(name);
  });

  it.each(['=1+1', '+1', '-1', '@SUM(1)', '=HYPERLINK("http://x";"y")'])(
    'makes a name that begins a formula harmless: %s',
    async (name) => {
      await site.store.db.updateTable('user').set({ name }).where('id', '=', mira).execute();
      const { named } = await csvOf('state=may');
      const { data } = Papa.parse<string[]>(named.slice(1).trimEnd());
      await site.store.db
        .updateTable('user')
        .set({ name: 'Mira Holt' })
        .where('id', '=', mira)
        .execute();
      expect(data.at(-1)?.[1]).toBe(`'${name}`);
      expect(data.flat().filter((cell) => /^[=+\-@\t\r]/.test(cell))).toEqual([]);
    },
  );
});
