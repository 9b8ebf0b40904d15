import { describe, expect, it } from 'vitest';
import { type LogEvent, mayWork } from '../../src/competence/index.ts';
import {
  checked,
  event,
  given,
  nameOf,
  nearMiss,
  registered,
  signed,
  signedForRipping,
  suspended,
  UNITS,
} from './log-maker.ts';

const ask = (
  events: readonly LogEvent[],
  at = '2026-04-01T00:00:00.000Z',
  over: { work?: string; bench?: string; person?: string } = {},
) => mayWork({ events, person: 'p1', bench: 'b1', work: 'rip', at, units: UNITS, nameOf, ...over });

const base = [registered('2026-01-05T08:00:00.000Z'), ...signedForRipping(), given()];
const out = event(
  'bench.taken-out',
  'b1',
  { bench: 'b1', reason: 'Guard cracked.' },
  { at: '2026-03-20T10:00:00.000Z' },
);
const back = event(
  'bench.returned',
  'b1',
  { bench: 'b1', done: 'New guard fitted.' },
  { at: '2026-03-22T10:00:00.000Z' },
);
const texts = (events: readonly LogEvent[], at?: string) =>
  ask(events, at).because.map(({ text }) => text);

describe('who may work', () => {
  it.each<[string, LogEvent[], string, string]>([
    ['nobody without leave in writing', signedForRipping(), '2026-04-01T00:00:00.000Z', 'may-not'],
    ['nobody by leave without sign-offs', [given()], '2026-04-01T00:00:00.000Z', 'may-not'],
    ['a second before the first day', base, '2026-03-09T23:59:59.000Z', 'may-not'],
    ['as the first day starts', base, '2026-03-10T00:00:00.000Z', 'may'],
    ['a second before the machine is taken out', [...base, out], '2026-03-20T09:59:59.000Z', 'may'],
    ['as the machine is taken out', [...base, out], '2026-03-20T10:00:00.000Z', 'may-not'],
    ['a second before it is returned', [...base, out, back], '2026-03-22T09:59:59.000Z', 'may-not'],
    ['as it is returned', [...base, out, back], '2026-03-22T10:00:00.000Z', 'may'],
    [
      'after a daily check found it not fit',
      [...base, checked('2026-03-20T07:00:00.000Z', { verdict: 'not-fit' })],
      '2026-03-20T07:00:00.000Z',
      'may-not',
    ],
    [
      'after a near miss',
      [...base, nearMiss('2026-03-20T07:00:00.000Z', [])],
      '2026-03-20T07:00:00.000Z',
      'may-not',
    ],
    [
      'under supervision where age asks for it',
      [
        ...signedForRipping(),
        given({ supervised: 'always', age: { rule: 'us', answer: 'young-under-supervision' } }),
      ],
      '2026-04-01T00:00:00.000Z',
      'may-supervised',
    ],
    [
      'under supervision where the paper says so',
      [...signedForRipping(), given({ supervised: 'always' })],
      '2026-04-01T00:00:00.000Z',
      'may-supervised',
    ],
    [
      'under supervision by age, whatever the paper says of it',
      [...signedForRipping(), given({ age: { rule: 'us', answer: 'young-under-supervision' } })],
      '2026-04-01T00:00:00.000Z',
      'may-supervised',
    ],
  ])('%s', (_, events, at, state) => {
    expect(ask(events, at).state).toBe(state);
  });

  it('holds for no other machine, work or person', () => {
    expect(ask(base, undefined, { bench: 'b2' }).state).toBe('may-not');
    expect(ask(base, undefined, { work: 'crosscut' }).state).toBe('may-not');
    expect(ask(base, undefined, { person: 'p2' }).state).toBe('may-not');
    const crosscut = signed({ unit: 'plan', work: 'crosscut' });
    expect(ask([...base, crosscut], undefined, { work: 'crosscut' }).state).toBe('may-not');
  });

  it('holds for nobody where no unit belongs to the work', () => {
    const found = mayWork({
      events: base,
      person: 'p1',
      bench: 'b1',
      work: 'rip',
      at: '2026-04-01T00:00:00.000Z',
      units: [],
      nameOf,
    });
    expect(found.state).toBe('may-not');
  });

  it('asks of one kind of work only the units of that work', () => {
    const both = [...signedForRipping(), given({ work: ['rip', 'crosscut'] })];
    expect(ask(both).state).toBe('may');
    expect(ask(both, undefined, { work: 'crosscut' }).state).toBe('may-not');
    const crosscut = signed({ unit: 'plan', work: 'crosscut' });
    expect(ask([...both, crosscut], undefined, { work: 'crosscut' }).state).toBe('may');
  });

  it('lasts no longer than the sign-offs it rests on', () => {
    const short = signedForRipping({ validUntil: '2026-08-31' });
    expect(ask([...short, given()])).toMatchObject({ state: 'may', until: '2026-08-31' });
    expect(ask(base)).toMatchObject({ state: 'may', until: '2027-03-03' });
  });

  it('takes the authorisation that needs nobody beside them, then the longer one', () => {
    const watched = given({ id: 'other', supervised: 'always' });
    const short = given({ id: 'short', until: '2026-06-30' });
    const found = ask([...base, watched, short]);
    expect(found).toMatchObject({ state: 'may', authorisation: { id: 'auth' } });
  });

  it('takes the authorisation in force before a longer one that rests', () => {
    const short = given({ id: 'short', until: '2026-06-30' });
    const found = ask([...base, short, suspended('2026-03-20T10:00:00.000Z')]);
    expect(found).toMatchObject({ state: 'may', authorisation: { id: 'short' } });
  });

  it('says why', () => {
    expect(texts(signedForRipping())).toEqual([
      'no authorisation in writing for ripping at this bench',
    ]);
    expect(texts(base)).toEqual(['authorised in writing by A. Weir, until 3 March 2027']);
    expect(texts([...base, out])).toEqual([
      'the bench is out of service since 20 March 2026: Guard cracked',
      'authorised in writing by A. Weir, until 3 March 2027',
    ]);
  });

  it('never says competent, safe or licensed', () => {
    for (const text of [base, [...base, out], signedForRipping()].flatMap((one) => texts(one))) {
      expect(text).not.toMatch(/competent|licen[cs]|certif|\bsafe\b/i);
    }
  });
});
