import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import {
  addDays,
  type LogEvent,
  matrixAt,
  matrixStateOf,
  mayWork,
  readInstant,
} from '../../src/competence/index.ts';
import { logOf, practicalBodies, shopBodies } from './any-log.ts';
import { event, given, nameOf, rules, signed, suspended, UNITS, withdrawn } from './log-maker.ts';

const BENCH = { asset: 'AL-01', title: 'Bench', limits: 'eu', work: ['rip', 'crosscut'] };
const bench = (at = '2026-01-05T08:00:00.000Z', over: object = {}, id = 'b1'): LogEvent =>
  event(
    'bench.registered',
    id,
    {
      ...BENCH,
      bench: id,
      change: 'entry',
      file: { guard: { kind: 'fixed' }, arbor: { largestBlade: 450, runDown: 9 } },
      ...over,
    },
    { at },
  );
const trainee = (person: string, joinedAt?: string) => ({
  person,
  role: 'trainee',
  ...(joinedAt === undefined ? {} : { joinedAt }),
});
const logFor = (events: readonly LogEvent[], people = [trainee('p1'), trainee('p2')]) => ({
  events,
  people,
  units: UNITS,
  nameOf,
});
const at = (text: string) => readInstant(text)?.instant ?? text;
const signedBoth = (over: object = {}) => ['plan', 'rip'].map((unit) => signed({ ...over, unit }));
const base = [bench(), ...signedBoth(), given()];
const ripping = (events: readonly LogEvent[], day: string, filters = {}) =>
  matrixAt(logFor(events), at(day), { people: ['p1'], works: ['rip'], ...filters }).cells[0];

describe('an instant that is asked about', () => {
  it('is the end of a day in UTC, or a minute in UTC', () => {
    expect(readInstant('2026-03-03')).toEqual({
      instant: '2026-03-03T23:59:59.999Z',
      day: '2026-03-03',
    });
    expect(readInstant('2024-02-29T07:05')?.instant).toBe('2024-02-29T07:05:00.000Z');
    expect(readInstant('2024-02-29T07:05:09.120Z')?.instant).toBe('2024-02-29T07:05:09.120Z');
    for (const wrong of ['', '2026-02-29', '2026-13-01', '2026-03-03T24:00', 'yesterday', '3/3/26'])
      expect(readInstant(wrong), wrong).toBeNull();
  });
});

describe('the matrix of an instant', () => {
  it('answers who was authorised on 3 March, on the day before and on the last day', () => {
    expect(ripping(base, '2026-03-09')?.state).toBe('may-not');
    const first = ripping(base, '2026-03-10');
    expect(first).toMatchObject({ state: 'may', since: '2026-03-10T00:00:00.000Z' });
    expect(first?.until).toBe('2027-03-03');
    expect(ripping(base, '2027-03-03')?.state).toBe('may');
    expect(ripping(base, '2027-03-04')?.state).toBe('rests');
  });

  it('says since when it rests, and since when it holds again', () => {
    const rested = [...base, suspended('2026-04-01T08:00:00.000Z')];
    expect(ripping(rested, '2026-04-02')).toMatchObject({
      state: 'rests',
      since: '2026-04-01T08:00:00.000Z',
      until: null,
    });
    const again = event(
      'authorisation.refreshed',
      'p1',
      { authorisation: 'auth', how: 'talked-through', signoff: null, note: 'Gone through.' },
      { at: '2026-04-05T09:00:00.000Z' },
    );
    expect(ripping([...rested, again], '2026-05-01')?.since).toBe('2026-04-05T09:00:00.000Z');
  });

  it('shows what was entered later with its day, and what the site said then when asked', () => {
    const late = suspended('2026-04-01T08:00:00.000Z', { received: '2026-04-09T07:00:00.000Z' });
    const cell = ripping([...base, late], '2026-04-03');
    expect(cell).toMatchObject({ state: 'rests', otherwise: 'may' });
    expect(cell?.later).toEqual([
      {
        event: late.id,
        kind: 'authorisation.suspended',
        happened: '2026-04-01T08:00:00.000Z',
        received: '2026-04-09T07:00:00.000Z',
      },
    ]);
    const then = ripping([...base, late], '2026-04-03', { known: 'then' });
    expect(then).toMatchObject({ state: 'may', otherwise: 'rests' });
    const after = ripping([...base, late], '2026-04-09');
    expect(after).toMatchObject({ state: 'rests', later: [], otherwise: null });
  });

  it('marks a late entry only at the bench and in the work it is about', () => {
    const other = signed({ work: 'crosscut', unit: 'plan', received: '2026-05-01T00:00:00.000Z' });
    const { cells } = matrixAt(logFor([...base, other]), at('2026-04-01'));
    const marked = cells.filter(({ later }) => later.length > 0);
    expect(marked.map(({ person, work }) => `${person} ${work}`)).toEqual(['p1 crosscut']);
  });

  it('lists who has left and held leave, and leaves out who came later and the employer', () => {
    const gone = [...base];
    const people = [trainee('p2', '2026-06-01T00:00:00.000Z'), { person: 'e1', role: 'employer' }];
    const then = matrixAt(logFor(gone, people), at('2026-04-01'));
    expect(then.people).toEqual([{ person: 'p1', role: null, isHere: false }]);
    const since = matrixAt(logFor(gone, people), at('2026-07-01'));
    expect(since.people.map(({ person }) => person)).toEqual(['p2', 'p1']);
  });

  it('has the benches and their work as they were registered then', () => {
    const events = [
      bench('2026-01-05T08:00:00.000Z', { work: ['rip'] }),
      bench('2026-05-05T08:00:00.000Z', { title: 'New name', work: ['rip', 'bevel'] }),
      bench('2026-06-05T08:00:00.000Z', { asset: 'AL-02' }, 'b2'),
    ];
    const named = (day: string) =>
      matrixAt(logFor(events), at(day)).places.map((one) => `${one.bench} ${one.work}`);
    expect(named('2026-01-04')).toEqual([]);
    expect(named('2026-05-04')).toEqual(['b1 rip']);
    expect(named('2026-06-05')).toEqual(['b1 rip', 'b1 bevel', 'b2 rip', 'b2 crosscut']);
  });

  it('narrows to a person, a bench, a kind of work and a state', () => {
    const events = [...base, bench(undefined, { asset: 'AL-02' }, 'b2')];
    const found = (filters: object, day = '2026-04-01') =>
      matrixAt(logFor(events), at(day), filters).cells.map(
        (one) => `${one.person} ${one.bench} ${one.work}`,
      );
    expect(found({})).toHaveLength(8);
    expect(found({ people: ['p2'], benches: ['b2'] })).toEqual(['p2 b2 rip', 'p2 b2 crosscut']);
    expect(found({ state: 'may' })).toEqual(['p1 b1 rip']);
    expect(found({ state: 'rests' }, '2027-03-04')).toEqual(['p1 b1 rip']);
    expect(found({ state: 'may-not' }, '2027-03-04')).toHaveLength(8);
    // it ends on 3 March 2027
    expect(found({ state: 'due-30' }, '2027-01-31')).toEqual([]);
    expect(found({ state: 'due-30' }, '2027-02-01')).toEqual(['p1 b1 rip']);
    expect(found({ state: 'due-90' }, '2026-12-03')).toEqual(['p1 b1 rip']);
    expect(found({ state: 'gap', works: ['rip'] })).toHaveLength(4);
  });

  it('counts gaps over everybody, whoever is asked for', () => {
    const places = matrixAt(logFor(base), at('2027-01-15'), { people: ['p2'] }).places;
    expect(places.map(({ work, gap, may }) => [work, gap, may])).toEqual([
      ['rip', 'one', 1],
      ['crosscut', 'nobody', 0],
    ]);
    expect(places[0]).toMatchObject({ ends: { 30: 0, 60: 1, 90: 1 }, firstEnd: '2027-03-03' });
    const second = ['plan', 'rip'].map((unit) => signed({ unit, person: 'p2' }));
    const both = [...base, ...second, given({ id: 'auth2', who: { person: 'p2' } })];
    expect(matrixAt(logFor(both), at('2026-04-01')).places[0]).toMatchObject({ may: 2, gap: null });
    const watched = [...base, ...second];
    watched.push(given({ id: 'auth2', who: { person: 'p2' }, supervised: 'always' }));
    expect(matrixAt(logFor(watched), at('2026-04-01')).places[0]).toMatchObject({
      may: 1,
      supervised: 1,
      gap: 'one',
    });
  });

  it('is no different for a rule that was set or a sign-off taken back later', () => {
    const [plan] = signedBoth();
    const later = [
      rules({ months: 1 }, '2026-08-01T00:00:00.000Z'),
      withdrawn(plan?.id ?? '', '2026-08-01T00:00:00.000Z'),
    ];
    const day = at('2026-04-01');
    expect(matrixAt(logFor([...base, ...later]), day)).toEqual(matrixAt(logFor(base), day));
  });
});

/** Random logs in which an event is about whoever it names, as the records ask for. */
const agreeing = (events: readonly LogEvent[]): LogEvent[] => {
  const owner = new Map(events.map(({ id, about }) => [id, about]));
  return events.flatMap((one): LogEvent[] => {
    const body = one.body as Record<string, never> & { statement?: { signoff?: string } };
    if (one.kind === 'bench.registered') return [{ ...one, body: { ...BENCH, ...one.body } }];
    if (!/^(practical|practice|authorisation|appeal)\./.test(one.kind)) return [one];
    const ref = body['authorisation'] ?? body['appeal'] ?? body['session'];
    const signoff = body.statement?.signoff ?? body['signoff'];
    const named = ref ?? (one.kind === 'authorisation.given' ? undefined : signoff);
    if (named === undefined || named === one.id) return [one];
    const about = owner.get(named);
    if (named === 'auth') return [{ ...one, about: 'p1' }];
    return about === undefined ? [] : [{ ...one, about }];
  });
};
const anyLog = logOf({ ...shopBodies, ...practicalBodies }, 60, 20).map(agreeing);
const ANY_PEOPLE = ['p1', 'p2', 't1'].map((one) => trainee(one));
const counts = (one: LogEvent): number => Math.min(Date.parse(one.at), Date.parse(one.received));

describe('whatever is in the log, the matrix', () => {
  it('says of each cell what the whole log says, and by what the site had then on asking', () => {
    let decided = 0;
    fc.assert(
      fc.property(anyLog, fc.constantFrom('now', 'then'), (events, known) => {
        const instant = '2027-01-01T00:00:00.000Z';
        const held = events.filter((one) => counts(one) <= Date.parse(instant));
        const then = held.filter(({ received }) => received <= instant);
        const log = logFor(events, ANY_PEOPLE);
        for (const cell of matrixAt(log, instant, { known }).cells) {
          const { person, bench: machine, work } = cell;
          const question = { person, bench: machine, work, at: instant, units: UNITS, nameOf };
          const may = mayWork({ ...question, events: known === 'now' ? held : then });
          expect(cell.state).toBe(matrixStateOf(may));
          expect(cell.because).toEqual(may.because);
          expect(cell.until).toBe(may.until);
          if (may.authorisation !== null) decided++;
        }
      }),
      { numRuns: 150 },
    );
    expect(decided).toBeGreaterThan(15);
  });

  it('says since when as asking every instant would', () => {
    let dated = 0;
    const often = logOf(
      {
        'practical.signed': practicalBodies['practical.signed'] as never,
        'authorisation.given': shopBodies['authorisation.given'] as never,
        'authorisation.suspended': shopBodies['authorisation.suspended'] as never,
        'authorisation.refreshed': shopBodies['authorisation.refreshed'] as never,
        'bench.registered': shopBodies['bench.registered'] as never,
        'bench.returned': shopBodies['bench.returned'] as never,
        'practical.withdrawn': practicalBodies['practical.withdrawn'] as never,
      },
      14,
      4,
    ).map((events) => {
      // what happens to an authorisation happens to the one of the base, so that it matters
      const hits = (one: LogEvent): LogEvent =>
        'authorisation' in one.body
          ? { ...one, about: 'p1', body: { ...one.body, authorisation: 'auth' } }
          : one;
      return [...base, ...agreeing(events.map(hits))];
    });
    fc.assert(
      fc.property(often, (events) => {
        const instant = '2027-01-15T00:00:00.000Z';
        for (const cell of matrixAt(logFor(events, ANY_PEOPLE), instant).cells) {
          if (cell.since === null || cell.state === 'rests') continue;
          dated++;
          const { person, bench: machine, work, since } = cell;
          const stateAt = (when: number) =>
            mayWork({
              ...{ person, bench: machine, work, events, units: UNITS, nameOf },
              at: new Date(when).toISOString(),
            }).state;
          const began = Date.parse(since);
          expect(stateAt(began - 1)).not.toBe(cell.state);
          const days = Array.from({ length: 730 }, (_, day) =>
            Date.parse(`${addDays('2026-01-01', day)}T00:00:00.000Z`),
          );
          const all = [...days, ...events.map(counts)];
          for (const turn of all.filter((one) => one >= began && one <= Date.parse(instant)))
            expect(stateAt(turn)).toBe(cell.state);
        }
      }),
      { numRuns: 120 },
    );
    expect(dated).toBeGreaterThan(30);
  });
});
