import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import {
  type LogEvent,
  ONE_PRACTICAL,
  statusOf,
  unitStatusOf,
} from '../../src/competence/index.ts';

const NAMES: Record<string, string> = { t1: 'Ruth Amsel', t2: 'Dev Pradhan', p1: 'Mira Holt' };
const nameOf = (person: string) => NAMES[person] ?? person;

const UNITS = [
  { id: 'plan', number: 1, title: 'Plan', work: ['rip', 'crosscut'], evidence: ONE_PRACTICAL },
  { id: 'set', number: 3, title: 'Set', work: ['rip', 'crosscut'], evidence: ONE_PRACTICAL },
  { id: 'rip', number: 5, title: 'Rip', work: ['rip'], evidence: ONE_PRACTICAL },
];

const SET = { id: 'set', evidence: ONE_PRACTICAL };

type Signed = {
  id: string;
  unit?: string;
  work?: string;
  bench?: string;
  who?: string;
  trainer?: string;
  by?: string;
  at?: string;
  observedAt?: string;
  validFrom?: string;
  validUntil?: string;
  decision?: 'signed-off' | 'not-yet';
};

function signed(over: Signed): LogEvent {
  const at = over.at ?? '2026-03-03T10:00:00.000Z';
  const trainer = over.trainer ?? 't1';
  return {
    id: over.id,
    kind: 'practical.signed',
    at,
    received: at,
    by: over.by ?? trainer,
    about: over.who ?? 'p1',
    body: {
      signoff: over.id,
      statement: {
        who: { person: over.who ?? 'p1' },
        trainer: { person: trainer },
        unit: { id: over.unit ?? 'set', version: '1' },
        bench: { id: over.bench ?? 'b1' },
        work: over.work ?? 'rip',
        observedAt: over.observedAt ?? '2026-03-03',
        validFrom: over.decision === 'not-yet' ? null : (over.validFrom ?? '2026-03-03'),
        validUntil: over.decision === 'not-yet' ? null : (over.validUntil ?? '2029-03-03'),
        decision: over.decision ?? 'signed-off',
      },
    },
  };
}

const withdrawn = (id: string, signoff: string, at: string, received = at): LogEvent => ({
  id,
  kind: 'practical.withdrawn',
  at,
  received,
  by: 't2',
  about: 'p1',
  body: { signoff, reason: 'Near miss on 9 May' },
});

const role = (person: string, given: string, at: string, kind = 'person.joined'): LogEvent => ({
  id: `${person}-${given}-${at}`,
  kind,
  at,
  received: at,
  by: 't1',
  about: person,
  body: { role: given },
});

const ask = (events: LogEvent[], at: string, over: { work?: string; bench?: string } = {}) =>
  unitStatusOf({ events, person: 'p1', bench: 'b1', work: 'rip', unit: SET, at, ...over });

describe('the state of one unit, one second before, at and after each date', () => {
  const one = [signed({ id: 's1' })];
  const later = [signed({ id: 's1', validFrom: '2026-04-01' })];
  const taken = [signed({ id: 's1' }), withdrawn('w1', 's1', '2026-05-09T12:00:00.000Z')];
  const refused = [
    signed({ id: 's1' }),
    signed({
      id: 's2',
      at: '2027-01-10T09:00:00.000Z',
      observedAt: '2027-01-10',
      decision: 'not-yet',
    }),
  ];
  const refreshed = [
    signed({ id: 's1' }),
    signed({
      id: 's2',
      at: '2029-06-01T09:00:00.000Z',
      observedAt: '2029-06-01',
      validFrom: '2029-06-01',
      validUntil: '2031-06-01',
    }),
  ];

  it.each([
    ['before signing', one, '2026-03-03T09:59:59.000Z', 'not-yet'],
    ['at signing', one, '2026-03-03T10:00:00.000Z', 'signed-off'],
    ['after signing', one, '2026-03-03T10:00:01.000Z', 'signed-off'],
    ['a second before the last day ends', one, '2029-03-03T23:59:59.000Z', 'signed-off'],
    ['as the last day ends', one, '2029-03-04T00:00:00.000Z', 'ended'],
    ['a second after the last day', one, '2029-03-04T00:00:01.000Z', 'ended'],
    ['a second before its first day', later, '2026-03-31T23:59:59.000Z', 'not-yet'],
    ['as its first day starts', later, '2026-04-01T00:00:00.000Z', 'signed-off'],
    ['a second into its first day', later, '2026-04-01T00:00:01.000Z', 'signed-off'],
    ['a second before the withdrawal', taken, '2026-05-09T11:59:59.000Z', 'signed-off'],
    ['at the withdrawal', taken, '2026-05-09T12:00:00.000Z', 'withdrawn'],
    ['after the withdrawal', taken, '2026-05-09T12:00:01.000Z', 'withdrawn'],
    [
      'withdrawn stays withdrawn after its end date',
      taken,
      '2029-03-04T00:00:00.000Z',
      'withdrawn',
    ],
    ['a second before a later "not yet"', refused, '2027-01-10T08:59:59.000Z', 'signed-off'],
    ['at a later "not yet"', refused, '2027-01-10T09:00:00.000Z', 'not-yet'],
    ['in the lapse before a refresh', refreshed, '2029-06-01T08:59:59.000Z', 'ended'],
    ['at the refresh', refreshed, '2029-06-01T09:00:00.000Z', 'signed-off'],
    ['at the end of the refresh', refreshed, '2031-06-02T00:00:00.000Z', 'ended'],
  ])('%s', (_, events, at, state) => {
    expect(ask(events, at).state).toBe(state);
  });

  it('reads the same whatever order the events come in', () => {
    for (const events of [taken, refused, refreshed]) {
      const at = '2028-01-01T00:00:00.000Z';
      expect(ask([...events].reverse(), at)).toEqual(ask(events, at));
    }
  });
});

describe('what a signature reaches', () => {
  const at = '2026-06-01T00:00:00.000Z';

  it('holds on no other bench and for no other kind of work', () => {
    const events = [signed({ id: 's1' })];
    expect(ask(events, at, { bench: 'b2' }).state).toBe('not-yet');
    expect(ask(events, at, { work: 'crosscut' }).state).toBe('not-yet');
  });

  it('does not count when a person signed for themselves', () => {
    expect(ask([signed({ id: 's1', trainer: 'p1' })], at).state).toBe('not-yet');
  });

  it('does not count under another name than the one that sent it', () => {
    expect(ask([signed({ id: 's1', by: 't2' })], at).state).toBe('not-yet');
  });

  it('does not count when the signer was no trainer at the time', () => {
    const joined = role('t1', 'trainee', '2026-01-01T00:00:00.000Z');
    const promoted = role('t1', 'trainer', '2026-03-04T00:00:00.000Z', 'person.role-changed');
    expect(ask([joined, signed({ id: 's1' })], at).state).toBe('not-yet');
    expect(ask([joined, promoted, signed({ id: 's1' })], at).state).toBe('not-yet');
  });

  it('still counts after the signer stopped being a trainer', () => {
    const joined = role('t1', 'trainer', '2026-01-01T00:00:00.000Z');
    const left = role('t1', 'trainee', '2026-04-01T00:00:00.000Z', 'person.role-changed');
    expect(ask([joined, left, signed({ id: 's1' })], at).state).toBe('signed-off');
  });

  it('takes a withdrawal from the earlier of the two clocks', () => {
    const slow = withdrawn('w1', 's1', '2026-09-01T00:00:00.000Z', '2026-05-01T00:00:00.000Z');
    expect(ask([signed({ id: 's1' }), slow], at).state).toBe('withdrawn');
  });

  it('does not fall back on an older sign-off when the newest is withdrawn', () => {
    const events = [
      signed({ id: 's1' }),
      signed({ id: 's2', at: '2026-04-01T00:00:00.000Z', observedAt: '2026-04-01' }),
      withdrawn('w1', 's2', '2026-05-01T00:00:00.000Z'),
    ];
    expect(ask(events, at).state).toBe('withdrawn');
  });

  it('falls back on the sign-off before a "not yet" that was taken back', () => {
    const events = [
      signed({ id: 's1' }),
      signed({
        id: 's2',
        at: '2026-04-01T00:00:00.000Z',
        observedAt: '2026-04-01',
        decision: 'not-yet',
      }),
      withdrawn('w1', 's2', '2026-05-01T00:00:00.000Z'),
    ];
    expect(ask(events, '2026-04-15T00:00:00.000Z').state).toBe('not-yet');
    expect(ask(events, at).state).toBe('signed-off');
  });
});

describe('the state of a kind of work', () => {
  const at = '2026-06-01T00:00:00.000Z';
  const all = (...events: LogEvent[]) =>
    statusOf({ events, person: 'p1', bench: 'b1', work: 'rip', at, units: UNITS, nameOf });

  it('is signed off when every unit it needs is, until the first of them runs out', () => {
    const status = all(
      signed({ id: 's1', unit: 'plan' }),
      signed({ id: 's2', unit: 'set', validUntil: '2028-01-31' }),
      signed({ id: 's3', unit: 'rip' }),
    );
    expect(status).toMatchObject({ state: 'signed-off', until: '2028-01-31' });
  });

  it('is signed off in part while a unit is missing', () => {
    const status = all(signed({ id: 's2' }));
    expect(status).toMatchObject({ state: 'in-part', until: '2029-03-03' });
    expect(status.because.map(({ text }) => text)).toEqual([
      'not yet, because no practical at this bench has been signed',
      'signed off by R. Amsel after a practical on 3 March 2026, until 3 March 2029',
      'not yet, because no practical at this bench has been signed',
    ]);
  });

  it('is withdrawn as soon as one unit is', () => {
    const status = all(
      signed({ id: 's1', unit: 'plan' }),
      signed({ id: 's2' }),
      signed({ id: 's3', unit: 'rip' }),
      withdrawn('w1', 's2', '2026-05-09T12:00:00.000Z'),
    );
    expect(status).toMatchObject({ state: 'withdrawn', until: null });
    expect(status.because[1]?.text).toBe(
      'withdrawn by D. Pradhan on 9 May 2026: Near miss on 9 May',
    );
  });

  it('asks nothing of units that belong to other work', () => {
    const status = statusOf({
      events: [
        signed({ id: 's1', unit: 'plan', work: 'crosscut' }),
        signed({ id: 's2', work: 'crosscut' }),
      ],
      person: 'p1',
      bench: 'b1',
      work: 'crosscut',
      at,
      units: UNITS,
      nameOf,
    });
    expect(status.state).toBe('signed-off');
  });

  it('never says competent or licensed', () => {
    const texts = [
      all(),
      all(signed({ id: 's1' })),
      all(signed({ id: 's1', validUntil: '2026-03-04' })),
      all(signed({ id: 's1' }), withdrawn('w1', 's1', '2026-05-09T12:00:00.000Z')),
    ].flatMap(({ because }) => because.map(({ text }) => text));
    for (const text of texts) expect(text).not.toMatch(/competent|licen[cs]|authoris|certif/i);
  });
});

describe('the screen alone', () => {
  const screenKinds = [
    'organisation.created',
    'person.joined',
    'person.role-changed',
    'bench.registered',
    'attempt.started',
    'attempt.submitted',
    'device-key.enrolled',
    'device-key.ended',
    'practical.withdrawn',
    'invitation.made',
    'invitation.used',
  ];
  const person = fc.constantFrom('p1', 't1', 't2');
  const screenEvent = fc.record({
    id: fc.uuid(),
    kind: fc.constantFrom(...screenKinds),
    at: fc
      .date({ noInvalidDate: true, min: new Date('2020-01-01'), max: new Date('2030-01-01') })
      .map((d) => d.toISOString()),
    received: fc.constant('2026-01-01T00:00:00.000Z'),
    by: person,
    about: person,
    body: fc.record({
      signoff: fc.uuid(),
      reason: fc.string(),
      role: fc.constantFrom('trainee', 'trainer', 'employer'),
      score: fc.integer({ min: 0, max: 100 }),
      // an attempt may carry anything the browser sent, a forged statement included
      statement: fc.constant((signed({ id: 'x' }).body as { statement: object }).statement),
    }),
  });

  it('never yields a signed-off state, whatever was done and in whatever order', () => {
    fc.assert(
      fc.property(fc.array(screenEvent, { maxLength: 40 }), (events) => {
        const status = statusOf({
          events,
          person: 'p1',
          bench: 'b1',
          work: 'rip',
          at: '2026-06-01T00:00:00.000Z',
          units: UNITS,
          nameOf,
        });
        expect(status.state).toBe('not-yet');
        expect(status.because.every(({ signoff }) => signoff === null)).toBe(true);
      }),
      { numRuns: 300 },
    );
  });
});
