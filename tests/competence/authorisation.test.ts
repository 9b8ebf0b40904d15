import { describe, expect, it } from 'vitest';
import { authorisationsOf, type LogEvent } from '../../src/competence/index.ts';
import {
  checked,
  event,
  given,
  nameOf,
  nearMiss,
  practised,
  refreshed,
  registered,
  role,
  rules,
  signed,
  signedForRipping,
  suspended,
  UNITS,
  withdrawn,
} from './log-maker.ts';

const ask = (events: readonly LogEvent[], at: string) => {
  const [one] = authorisationsOf({ events, person: 'p1', at, units: UNITS, nameOf });
  if (one === undefined) throw new Error('nothing was given');
  return one;
};

const signs = signedForRipping();
const base = [registered('2026-01-05T08:00:00.000Z'), ...signs, given()];
/** Used often enough that no long break comes in between. */
const used = [2026, 2027, 2028].flatMap((year) =>
  ['06-01', '12-01'].map((day) => checked(`${year}-${day}T07:00:00.000Z`)),
);
/** Signed for once more, so that the sign-offs outlast the authorisation. */
const watchedAgain = signedForRipping({ at: '2028-06-01T10:00:00.000Z' });
const long = [...base, ...used, ...watchedAgain];
const seconded = (answer: string, by: string, at: string, altered?: boolean) =>
  event(
    'authorisation.seconded',
    'p1',
    { authorisation: 'auth', answer, note: null },
    { by, at, ...(altered === undefined ? {} : { altered }) },
  );
const ended = event(
  'authorisation.ended',
  'p1',
  { authorisation: 'auth', reason: 'Moved to the bench room.' },
  { at: '2026-05-01T12:00:00.000Z', by: 'e1' },
);

describe('an authorisation, one second before, at and after each date', () => {
  const T = (day: string, time = '10:00:00') => `${day}T${time}.000Z`;
  const short = rules({ months: 12 });
  const strict = rules({ second: 'authorisation' });
  const seconds = [strict, ...base, seconded('agrees', 't1', T('2026-03-12'))];
  const rested = [...base, suspended(T('2026-04-01'))];
  const lifted = [...rested, refreshed(T('2026-04-03'))];
  const missed = [...base, nearMiss(T('2026-04-01'), ['p1'])];
  const taken = [...base, withdrawn(signs[1]?.id ?? '', T('2026-04-01'))];

  it.each<[string, LogEvent[], string, string]>([
    ['before its first day', base, T('2026-03-09', '23:59:59'), 'not-started'],
    ['as its first day starts', base, T('2026-03-10', '00:00:00'), 'in-force'],
    ['a second into its first day', base, T('2026-03-10', '00:00:01'), 'in-force'],
    ['a second before its last day ends', long, T('2029-03-09', '23:59:59'), 'in-force'],
    ['as its last day ends', long, T('2029-03-10', '00:00:00'), 'ended'],
    ['a second after its last day', long, T('2029-03-10', '00:00:01'), 'ended'],
    [
      "a second before the organisation's interval ends",
      [...long, short],
      T('2027-03-10', '23:59:59'),
      'rests',
    ],
    ["as the organisation's interval ends", [...long, short], T('2027-03-11', '00:00:00'), 'ended'],
    ['a second before the last use is too long ago', base, T('2027-03-03', '23:59:59'), 'in-force'],
    ['as the last use is too long ago', base, T('2027-03-04', '00:00:00'), 'rests'],
    ['a second later', base, T('2027-03-04', '00:00:01'), 'rests'],
    ['a second before it is suspended', rested, T('2026-04-01', '09:59:59'), 'in-force'],
    ['as it is suspended', rested, T('2026-04-01'), 'rests'],
    ['a second after it was suspended', rested, T('2026-04-01', '10:00:01'), 'rests'],
    ['a second before it is refreshed', lifted, T('2026-04-03', '09:59:59'), 'rests'],
    ['as it is refreshed', lifted, T('2026-04-03'), 'in-force'],
    ['a second after it was refreshed', lifted, T('2026-04-03', '10:00:01'), 'in-force'],
    ['a second before a near miss', missed, T('2026-04-01', '09:59:59'), 'in-force'],
    ['at a near miss', missed, T('2026-04-01'), 'rests'],
    ['a second after a near miss', missed, T('2026-04-01', '10:00:01'), 'rests'],
    ['a second before a sign-off is withdrawn', taken, T('2026-04-01', '09:59:59'), 'in-force'],
    ['as a sign-off is withdrawn', taken, T('2026-04-01'), 'rests'],
    ['a second after', taken, T('2026-04-01', '10:00:01'), 'rests'],
    [
      'a second before the second person agrees',
      seconds,
      T('2026-03-12', '09:59:59'),
      'awaits-second',
    ],
    ['as the second person agrees', seconds, T('2026-03-12'), 'in-force'],
    ['a second after', seconds, T('2026-03-12', '10:00:01'), 'in-force'],
    ['a second before it is ended', [...base, ended], T('2026-05-01', '11:59:59'), 'in-force'],
    ['as it is ended', [...base, ended], T('2026-05-01', '12:00:00'), 'ended'],
    ['a second after', [...base, ended], T('2026-05-01', '12:00:01'), 'ended'],
  ])('%s', (_, events, at, state) => {
    expect(ask(events, at).state).toBe(state);
  });

  it('does not exist before it was given', () => {
    const at = '2026-03-09T08:59:59.000Z';
    expect(authorisationsOf({ events: base, person: 'p1', at, units: UNITS, nameOf })).toEqual([]);
  });

  it('ends on the earliest of its own end, the interval and the last use', () => {
    const at = '2026-04-01T00:00:00.000Z';
    expect(ask(base, at).until).toBe('2027-03-03');
    expect(ask([...base, rules({ breakMonths: 36 })], at).until).toBe('2029-03-03');
    expect(ask([...base, rules({ breakMonths: 36, months: 6 })], at).until).toBe('2026-09-10');
    const near = given({ until: '2026-06-30' });
    expect(ask([...signs, near], at).until).toBe('2026-06-30');
  });

  it('needs every unit of every kind of work it names', () => {
    const both = given({ work: ['rip', 'crosscut'] });
    const status = ask([...signs, both], '2026-04-01T00:00:00.000Z');
    expect(status).toMatchObject({ state: 'rests', lacking: ['crosscut'] });
    expect(status.because.map(({ text }) => text)).toEqual([
      'rests, because the sign-offs for crosscutting are not all in force: 0 of 1 units',
    ]);
  });
});

describe('the last use', () => {
  const at = '2027-06-01T00:00:00.000Z';
  const start = '2027-01-10T08:00:00.000Z';
  it.each<[string, LogEvent[], string]>([
    ['a practical watched', [signed({ at: '2027-01-10T10:00:00.000Z' })], 'in-force'],
    ['confirmed practice', practised({ start }), 'in-force'],
    ['practice not confirmed', practised({ start, answer: null }), 'rests'],
    ['practice refused', practised({ start, answer: 'no' }), 'rests'],
    ['practice at another bench', practised({ start, bench: 'b2' }), 'rests'],
    ['practice of other work', practised({ start, work: 'crosscut' }), 'rests'],
    ['a daily check of their own', [checked(start)], 'in-force'],
    ['a daily check by somebody else', [checked(start, { by: 'p2' })], 'rests'],
    ['a daily check at another bench', [checked(start, { bench: 'b2' })], 'rests'],
    ['an altered daily check', [checked(start, { altered: true })], 'rests'],
    ['a refresh', [refreshed(start)], 'in-force'],
  ])('%s', (_, events, state) => {
    expect(ask([...base, ...events], at).state).toBe(state);
  });

  it('after a long break wakes nothing by itself: a refresh does', () => {
    const back = checked('2027-05-01T07:00:00.000Z');
    expect(ask([...base, back], at)).toMatchObject({
      state: 'rests',
      causes: [{ kind: 'long-break', day: '2027-03-04' }],
    });
    expect(ask([...base, back, refreshed('2027-05-02T07:00:00.000Z')], at).state).toBe('in-force');
  });

  it('is counted by the break the organisation chose', () => {
    expect(ask([...base, rules({ breakMonths: 3 })], '2026-06-03T23:59:59.000Z').state).toBe(
      'in-force',
    );
    expect(ask([...base, rules({ breakMonths: 3 })], '2026-06-04T00:00:00.000Z').state).toBe(
      'rests',
    );
  });
});

describe('what lays an authorisation to rest', () => {
  const at = '2026-06-01T00:00:00.000Z';
  const day = '2026-04-01T10:00:00.000Z';
  it.each<[string, LogEvent[], string]>([
    ['a near miss that names them', [nearMiss(day, ['p1'])], 'rests'],
    ['a near miss that names nobody', [nearMiss(day, [])], 'rests'],
    ['a near miss of somebody else', [nearMiss(day, ['p2'])], 'in-force'],
    ['a near miss before it was given', [nearMiss('2026-03-05T10:00:00.000Z', ['p1'])], 'in-force'],
    [
      'a near miss before, which was reported after',
      [nearMiss(day, ['p1'], { happenedAt: '2026-03-05T10:00:00.000Z' })],
      'rests',
    ],
    ['an altered near miss', [nearMiss(day, ['p1'], { altered: true })], 'rests'],
    ['an entry that changes nothing', [registered(day)], 'in-force'],
    ['a change of the guard', [registered(day, { change: 'guard' })], 'rests'],
    [
      'a change of the machine before it was given',
      [registered('2026-02-01T08:00:00.000Z', { change: 'machine' })],
      'in-force',
    ],
    ['a change of the machine', [registered(day, { change: 'machine' })], 'rests'],
    [
      'another guard in the file of an entry',
      [registered(day, { guard: 'self-closing' })],
      'rests',
    ],
    ['no guard in the file of an entry', [registered(day, { guard: null })], 'rests'],
    ['a larger blade in the file', [registered(day, { largestBlade: 500 })], 'rests'],
    ['a smaller blade in the file', [registered(day, { largestBlade: 400 })], 'in-force'],
    ['another brake in the file', [registered(day, { runDown: 10 })], 'rests'],
    ['a stop as long as before, measured again', [registered(day, { runDown: 9.4 })], 'in-force'],
    [
      'a change of another bench',
      [registered(day, { change: 'machine', bench: 'b2' })],
      'in-force',
    ],
    ['a suspension', [suspended(day)], 'rests'],
    ['an altered suspension', [suspended(day, { altered: true })], 'rests'],
  ])('%s', (_, events, state) => {
    expect(ask([...base, ...events], at).state).toBe(state);
  });

  it('is told with its day and its reason', () => {
    const events = [...base, nearMiss(day, ['p1']), suspended('2026-04-02T10:00:00.000Z')];
    expect(ask(events, at).because.map(({ text }) => text)).toEqual([
      'rests since 1 April 2026, after a near miss at this bench, until it is refreshed',
      'rests since 2 April 2026, set at rest by D. Pradhan, until it is refreshed: Guard left up twice',
    ]);
  });
});

describe('a refresh', () => {
  const at = '2026-06-01T00:00:00.000Z';
  const one = nearMiss('2026-04-01T10:00:00.000Z', ['p1']);
  const two = suspended('2026-04-05T10:00:00.000Z');
  const same = signed({ id: 'r1', at: '2026-04-01T15:00:00.000Z' });
  const before = signed({ id: 'r0', at: '2026-03-31T15:00:00.000Z' });
  it.each<[string, LogEvent[], string]>([
    ['lifts a cause before it', [one, refreshed('2026-04-02T10:00:00.000Z')], 'in-force'],
    ['lifts nothing that comes after it', [one, refreshed('2026-04-01T09:00:00.000Z')], 'rests'],
    ['lifts nothing at the same instant', [one, refreshed('2026-04-01T10:00:00.000Z')], 'rests'],
    [
      'between two causes leaves the second',
      [one, two, refreshed('2026-04-02T10:00:00.000Z')],
      'rests',
    ],
    ['after two causes lifts both', [one, two, refreshed('2026-04-06T10:00:00.000Z')], 'in-force'],
    [
      'by the person themselves lifts nothing',
      [one, refreshed('2026-04-02T10:00:00.000Z', null, { by: 'p1' })],
      'rests',
    ],
    [
      'that was altered lifts nothing',
      [one, refreshed('2026-04-02T10:00:00.000Z', null, { altered: true })],
      'rests',
    ],
    [
      'with a practical of that day lifts it',
      [one, same, refreshed('2026-04-02T10:00:00.000Z', 'r1')],
      'in-force',
    ],
    [
      'with a practical of the day before does not',
      [one, before, refreshed('2026-04-02T10:00:00.000Z', 'r0')],
      'rests',
    ],
    [
      'with a practical that is not in the log does not',
      [one, refreshed('2026-04-02T10:00:00.000Z', 'r9')],
      'rests',
    ],
    [
      'with a practical taken back since does not',
      [
        one,
        same,
        refreshed('2026-04-02T10:00:00.000Z', 'r1'),
        withdrawn('r1', '2026-04-03T10:00:00.000Z'),
        ...signedForRipping({ at: '2026-04-04T10:00:00.000Z' }),
      ],
      'rests',
    ],
    [
      'with a practical of somebody else does not',
      [
        one,
        signed({ id: 'r2', at: '2026-04-01T15:00:00.000Z', person: 'p2' }),
        refreshed('2026-04-02T10:00:00.000Z', 'r2'),
      ],
      'rests',
    ],
    [
      'with a practical at another bench does not',
      [
        one,
        signed({ id: 'r3', at: '2026-04-01T15:00:00.000Z', bench: 'b2' }),
        refreshed('2026-04-02T10:00:00.000Z', 'r3'),
      ],
      'rests',
    ],
    [
      'before a report that reached the site later lifts nothing',
      [
        nearMiss('2026-04-01T10:00:00.000Z', ['p1'], { received: '2026-04-10T10:00:00.000Z' }),
        refreshed('2026-04-02T10:00:00.000Z'),
      ],
      'rests',
    ],
    [
      'by somebody who is no trainer lifts nothing',
      [
        one,
        role('e1', 'employer', '2026-01-01T00:00:00.000Z'),
        refreshed('2026-04-02T10:00:00.000Z', null, { by: 'e1' }),
      ],
      'rests',
    ],
  ])('%s', (_, events, state) => {
    expect(ask([...base, ...events], at).state).toBe(state);
  });

  it('says when it last was', () => {
    const events = [...base, one, refreshed('2026-04-02T10:00:00.000Z')];
    expect(ask(events, at).refreshedAt).toBe('2026-04-02T10:00:00.000Z');
    expect(ask(base, at).refreshedAt).toBeNull();
  });
});

describe('the second person', () => {
  const at = '2026-04-01T00:00:00.000Z';
  const strict = rules({ second: 'authorisation' });
  const time = '2026-03-12T10:00:00.000Z';
  it.each<[string, LogEvent[], string]>([
    ['has not spoken', [], 'awaits-second'],
    ['agrees', [seconded('agrees', 't1', time)], 'in-force'],
    ['does not agree', [seconded('disagrees', 't1', time)], 'awaits-second'],
    [
      'is outweighed by one who does not',
      [seconded('agrees', 't1', time), seconded('disagrees', 't2', time)],
      'awaits-second',
    ],
    ['is not who gave it', [seconded('agrees', 'e1', time)], 'awaits-second'],
    ['is not who may', [seconded('agrees', 'p1', time)], 'awaits-second'],
    [
      'is no trainee',
      [role('p2', 'trainee', '2026-01-01T00:00:00.000Z'), seconded('agrees', 'p2', time)],
      'awaits-second',
    ],
    ['does not count altered', [seconded('agrees', 't1', time, true)], 'awaits-second'],
  ])('%s', (_, events, state) => {
    expect(ask([strict, ...base, ...events], at).state).toBe(state);
  });

  it('is not asked for by a rule made later, nor by one given up since', () => {
    expect(
      ask([...base, rules({ second: 'authorisation' }, '2026-03-20T00:00:00.000Z')], at).state,
    ).toBe('in-force');
    expect(ask([strict, ...base, rules({}, '2026-03-20T00:00:00.000Z')], at).state).toBe(
      'in-force',
    );
  });
});

describe('an authorisation that counts for nothing', () => {
  const at = '2026-04-01T00:00:00.000Z';
  it.each<[string, LogEvent[]]>([
    ['altered', [...signs, given({ when: { altered: true } })]],
    ['given to oneself', [...signs, given({ by: { person: 'p1', role: 'trainer' } })]],
    ['sent under another name', [...signs, given({ when: { by: 't2' } })]],
    ['given by a trainee', [...signs, role('e1', 'trainee', '2026-01-01T00:00:00.000Z'), given()]],
  ])('%s', (_, events) => {
    expect(ask(events, at).state).toBe('ended');
  });
});
