import { describe, expect, it } from 'vitest';
import { dueOf, type LogEvent } from '../../src/competence/index.ts';
import {
  checked,
  event,
  given,
  nameOf,
  nearMiss,
  practised,
  refreshed,
  rules,
  signed,
  signedForRipping,
  UNITS,
} from './log-maker.ts';

const PEOPLE = [
  { person: 'p1', role: 'trainee' },
  { person: 't1', role: 'trainer' },
  { person: 'e1', role: 'employer' },
];
const BENCHES = [{ id: 'b1', asset: 'AL-01', work: ['rip'] }];

const ask = (events: readonly LogEvent[], at: string, people = PEOPLE) =>
  dueOf({ events, at, people, benches: BENCHES, units: UNITS, nameOf });
const kinds = (events: readonly LogEvent[], at: string) => ask(events, at).map(({ kind }) => kind);

const signs = signedForRipping();
const keptUp = rules({ breakMonths: 36 });

describe('what is due', () => {
  const appeal = event(
    'practical.answered',
    'p1',
    { signoff: signs[1]?.id, answer: 'appeals', words: 'The blade was blunt.' },
    { id: 'a1', by: 'p1', at: '2026-03-10T10:00:00.000Z' },
  );
  const settled = event(
    'appeal.settled',
    'p1',
    { appeal: 'a1', outcome: 'stands', reason: 'Looked at it.' },
    { by: 't2', at: '2026-03-12T10:00:00.000Z' },
  );
  const out = event(
    'bench.taken-out',
    'b1',
    { bench: 'b1', reason: 'Guard cracked.' },
    { at: '2026-05-20T10:00:00.000Z' },
  );
  const strict = rules({ second: 'practical-and-authorisation' });
  const leave = [keptUp, ...signs, given()];
  const near = [...leave, given({ id: 'x', until: '2026-06-30' })];

  it.each<[string, LogEvent[], string, string[]]>([
    ['nothing where nothing happened', [], '2026-06-01T12:00:00.000Z', []],
    ['nothing 61 days before a sign-off ends', signs, '2029-01-01T23:59:59.000Z', []],
    ['a sign-off 60 days before its end', signs, '2029-01-02T00:00:00.000Z', ['sign-off-ends']],
    ['a sign-off on its last day', signs, '2029-03-03T23:59:59.000Z', ['sign-off-ends']],
    ['a sign-off the day after', signs, '2029-03-04T00:00:00.000Z', ['sign-off-ended']],
    ['a sign-off 60 days after its end', signs, '2029-05-02T00:00:00.000Z', ['sign-off-ended']],
    ['nothing 61 days after', signs, '2029-05-03T00:00:00.000Z', []],
    [
      'the days of notice the organisation chose',
      [...signs, rules({ noticeDays: 7 })],
      '2029-02-23T00:00:00.000Z',
      [],
    ],
    [
      'the first of those days',
      [...signs, rules({ noticeDays: 7 })],
      '2029-02-24T00:00:00.000Z',
      ['sign-off-ends'],
    ],
    [
      'an authorisation that runs out',
      [...signs, given({ until: '2026-06-30' })],
      '2026-06-01T12:00:00.000Z',
      ['authorisation-ends'],
    ],
    [
      'an authorisation that ran out',
      [...signs, given({ until: '2026-05-31' })],
      '2026-06-01T12:00:00.000Z',
      ['authorisation-ended'],
    ],
    [
      'nothing of one that a newer one replaces',
      [...near, given({ id: 'y', when: { at: '2026-03-20T09:00:00.000Z' } })],
      '2026-06-01T12:00:00.000Z',
      [],
    ],
    [
      'a long break that comes near',
      [rules({ breakMonths: 4 }), ...signs, given()],
      '2026-06-01T12:00:00.000Z',
      ['long-break'],
    ],
    [
      'no long break after a daily check',
      [rules({ breakMonths: 4 }), ...signs, given(), checked('2026-05-10T07:00:00.000Z')],
      '2026-06-01T12:00:00.000Z',
      [],
    ],
    [
      'an authorisation that rests',
      [...leave, nearMiss('2026-04-01T10:00:00.000Z', [])],
      '2026-06-01T12:00:00.000Z',
      ['rests'],
    ],
    [
      'nothing once it is refreshed',
      [...leave, nearMiss('2026-04-01T10:00:00.000Z', []), refreshed('2026-04-02T10:00:00.000Z')],
      '2026-06-01T12:00:00.000Z',
      [],
    ],
    [
      'a second person',
      [strict, ...signs, given()],
      '2026-03-09T12:00:00.000Z',
      ['awaits-cosign', 'awaits-cosign', 'no-check', 'awaits-second'],
    ],
    ['an open appeal', [...signs, appeal], '2026-06-01T12:00:00.000Z', ['appeal']],
    ['no settled appeal', [...signs, appeal, settled], '2026-06-01T12:00:00.000Z', []],
    ['practice to confirm', practised({ answer: null }), '2026-06-01T12:00:00.000Z', ['practice']],
    ['no confirmed practice', practised(), '2026-06-01T12:00:00.000Z', []],
    ['a machine out of service', [out], '2026-06-01T12:00:00.000Z', ['bench-out']],
    [
      'the check of today at a machine in use',
      [checked('2026-05-31T07:00:00.000Z')],
      '2026-06-01T12:00:00.000Z',
      ['no-check'],
    ],
    [
      'no check of a machine unused for eight days',
      [checked('2026-05-24T07:00:00.000Z')],
      '2026-06-01T12:00:00.000Z',
      [],
    ],
    [
      'no second check today',
      [checked('2026-06-01T07:00:00.000Z')],
      '2026-06-01T12:00:00.000Z',
      [],
    ],
  ])('%s', (_, events, at, expected) => {
    const found = kinds(events, at);
    expect([...found].sort()).toEqual([...expected].sort());
  });

  it('comes by day, and says whom it concerns and why in words', () => {
    const events = [...leave, nearMiss('2026-04-01T10:00:00.000Z', []), out, appeal];
    const due = ask(events, '2026-06-01T12:00:00.000Z');
    expect(due.map(({ day }) => day)).toEqual(['2026-03-10', '2026-04-01', '2026-05-20']);
    expect(due.map(({ text }) => text)).toEqual([
      'an appeal made on 10 March 2026 is to be settled',
      'the authorisation for ripping rests since 1 April 2026 and is to be refreshed',
      'the bench is out of service since 20 May 2026',
    ]);
    expect(due[1]).toMatchObject({
      person: 'p1',
      bench: 'b1',
      work: 'rip',
      who: ['trainee', 'trainer', 'employer'],
    });
  });

  it('keeps its id from one day to the next, and no two are the same', () => {
    const ids = (at: string) => ask(signs, at).map(({ id }) => id);
    expect(ids('2029-01-10T00:00:00.000Z')).toEqual(ids('2029-01-20T00:00:00.000Z'));
    const many = ask(
      [strict, ...signs, given(), ...practised({ answer: null }), out],
      '2026-06-01T12:00:00.000Z',
    );
    expect(new Set(many.map(({ id }) => id)).size).toBe(many.length);
    expect(many.length).toBeGreaterThan(3);
  });

  it('reminds of nobody who has left', () => {
    const here = PEOPLE.filter(({ person }) => person !== 'p1');
    const events = [
      ...leave,
      appeal,
      ...practised({ answer: null }),
      nearMiss('2026-04-01T10:00:00.000Z', []),
    ];
    expect(ask(events, '2026-06-01T12:00:00.000Z', here)).toEqual([]);
  });

  it('waits for a second trainer about a practical of one unit at a time', () => {
    const two = [strict, signed({ id: 'w1' }), signed({ id: 'w2', unit: 'plan' })];
    const waiting = ask(two, '2026-06-01T12:00:00.000Z').map(({ id }) => id);
    expect(waiting).toEqual(['awaits-cosign:w1', 'awaits-cosign:w2']);
  });
});
