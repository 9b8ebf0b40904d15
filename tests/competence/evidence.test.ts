import { describe, expect, it } from 'vitest';
import {
  type Evidence,
  type LogEvent,
  ONE_PRACTICAL,
  sayToldInEnglish,
  statusOf,
  unitStatusOf,
} from '../../src/competence/index.ts';
import { loadUnits } from '../../src/store/content-files.ts';
import { cosigned, event, nameOf, practised, role, rules, signed, withdrawn } from './log-maker.ts';

const TWO: Evidence = { ...ONE_PRACTICAL, practicals: 2, days: 2 };
const PRACTISED: Evidence = { ...ONE_PRACTICAL, practice: { sessions: 3, hours: 2 } };

const ask = (events: readonly LogEvent[], at: string, evidence: Evidence = ONE_PRACTICAL) =>
  unitStatusOf({
    events,
    person: 'p1',
    bench: 'b1',
    work: 'rip',
    unit: { id: 'rip', evidence },
    at,
  });

const first = signed({ id: 's1', at: '2026-03-03T10:00:00.000Z' });
const second = signed({ id: 's2', at: '2026-03-05T10:00:00.000Z' });
const LATER = '2026-06-01T00:00:00.000Z';

describe('two practicals on two days', () => {
  it.each([
    [
      'a second before the second practical',
      [first, second],
      '2026-03-05T09:59:59.000Z',
      'not-yet',
    ],
    ['at the second practical', [first, second], '2026-03-05T10:00:00.000Z', 'signed-off'],
    ['a second after it', [first, second], '2026-03-05T10:00:01.000Z', 'signed-off'],
    [
      'two on the same day',
      [first, signed({ id: 's2', at: '2026-03-03T15:00:00.000Z' })],
      LATER,
      'not-yet',
    ],
    [
      'two on other days, at different benches',
      [first, signed({ id: 's2', at: '2026-03-05T10:00:00.000Z', bench: 'b2' })],
      LATER,
      'not-yet',
    ],
    [
      'two for different work',
      [first, signed({ id: 's2', at: '2026-03-05T10:00:00.000Z', work: 'deep' })],
      LATER,
      'not-yet',
    ],
    ['until the newest runs out', [first, second], '2029-03-05T23:59:59.000Z', 'signed-off'],
    ['as the newest has run out', [first, second], '2029-03-06T00:00:00.000Z', 'ended'],
    [
      'one more after it ran out',
      [first, second, signed({ at: '2029-04-01T10:00:00.000Z' })],
      '2029-04-01T10:00:00.000Z',
      'signed-off',
    ],
  ])('%s', (_, events, at, state) => {
    expect(ask(events, at, TWO).state).toBe(state);
  });

  it('may be fewer days than practicals, and both are counted', () => {
    const three = { ...ONE_PRACTICAL, practicals: 3, days: 2 };
    expect(ask([first, second], LATER, three).state).toBe('not-yet');
    const third = signed({ id: 's3', at: '2026-03-05T15:00:00.000Z' });
    expect(ask([first, second, third], LATER, three).state).toBe('signed-off');
  });

  it('starts the count anew after a "not yet", a withdrawal and a co-signature that disagrees', () => {
    const third = signed({ id: 's3', at: '2026-04-01T10:00:00.000Z' });
    const fourth = signed({ id: 's4', at: '2026-04-02T10:00:00.000Z' });
    const breaks = [
      [signed({ id: 'n', at: '2026-03-20T10:00:00.000Z', decision: 'not-yet' })],
      [withdrawn('s2', '2026-03-20T10:00:00.000Z')],
      [cosigned('s2', 'disagrees', { at: '2026-03-20T10:00:00.000Z' })],
    ];
    for (const broken of breaks) {
      const events = [first, second, ...broken, third];
      expect(ask(events, LATER, TWO)).toMatchObject({ state: 'not-yet', why: 'evidence' });
      expect(ask([...events, fourth], LATER, TWO).state).toBe('signed-off');
    }
  });

  it('says how many there are, and on which days', () => {
    const status = statusOf({
      events: [first],
      person: 'p1',
      bench: 'b1',
      work: 'rip',
      at: LATER,
      units: [{ id: 'rip', number: 5, title: 'Rip', work: ['rip'], evidence: TWO }],
      nameOf,
    });
    expect(status.because[0]?.text).toBe(
      'not yet, because it takes 2 practicals on 2 days: 1 so far, on 3 March 2026',
    );
    const lines = ask([first, second], LATER, TWO).rules;
    expect(lines.map(({ told }) => sayToldInEnglish(told))).toEqual([
      '2 practicals on 2 days: watched on 3 March 2026, 5 March 2026',
      'the newest practical stands until 5 March 2029',
    ]);
    expect(lines.every(({ met }) => met)).toBe(true);
  });
});

describe('confirmed practice', () => {
  const enough = [
    ...practised({ start: '2026-03-04T08:00:00.000Z' }),
    ...practised({ start: '2026-03-05T08:00:00.000Z', hours: 0.5 }),
    ...practised({ start: '2026-03-06T08:00:00.000Z', hours: 0.5 }),
  ];
  const last = '2026-03-07T08:30:00.000Z';
  it.each([
    [
      'a second before the last is confirmed',
      [first, ...enough],
      '2026-03-07T08:29:59.000Z',
      'not-yet',
    ],
    ['when the last is confirmed', [first, ...enough], last, 'signed-off'],
    ['a second after', [first, ...enough], '2026-03-07T08:30:01.000Z', 'signed-off'],
    ['two sessions are too few', [first, ...enough.slice(0, 4)], LATER, 'not-yet'],
    [
      'a session at another bench',
      [first, ...enough.slice(0, 4), ...practised({ bench: 'b2' })],
      LATER,
      'not-yet',
    ],
    [
      'a session of other work',
      [first, ...enough.slice(0, 4), ...practised({ work: 'crosscut' })],
      LATER,
      'not-yet',
    ],
    [
      'a session the supervisor refused',
      [first, ...enough.slice(0, 4), ...practised({ answer: 'no' })],
      LATER,
      'not-yet',
    ],
    [
      'the same hour noted three times',
      [first, ...practised({ hours: 1 }), ...practised({ hours: 1 }), ...practised({ hours: 1 })],
      LATER,
      'not-yet',
    ],
  ])('%s', (_, events, at, state) => {
    expect(ask(events, at, PRACTISED).state).toBe(state);
  });

  it('is counted by sessions and by hours, each by itself', () => {
    const long = ['2026-03-04', '2026-03-05'].flatMap((day) =>
      practised({ start: `${day}T08:00:00.000Z`, hours: 3 }),
    );
    expect(ask([first, ...long], LATER, PRACTISED).state).toBe('not-yet');
    const short = ['2026-03-04', '2026-03-05', '2026-03-06'].flatMap((day) =>
      practised({ start: `${day}T08:00:00.000Z`, hours: 0.5 }),
    );
    expect(ask([first, ...short], LATER, PRACTISED).state).toBe('not-yet');
  });

  it('is looked for in the same work, whatever else was practised at the bench', () => {
    const other = ['2026-03-04', '2026-03-05', '2026-03-06'].flatMap((day) =>
      practised({ start: `${day}T12:00:00.000Z`, work: 'crosscut' }),
    );
    expect(ask([first, ...other], LATER, PRACTISED).state).toBe('not-yet');
    expect(ask([first, ...other.slice(0, 2), ...enough], LATER, PRACTISED).state).toBe(
      'signed-off',
    );
  });

  it('never takes the place of a practical', () => {
    expect(ask(enough, LATER, PRACTISED)).toMatchObject({ state: 'not-yet', why: 'none' });
  });

  it('says how much there is', () => {
    const status = ask([first, ...enough.slice(0, 4)], LATER, PRACTISED);
    if (status.state !== 'not-yet' || status.why !== 'evidence') throw new Error('it is enough');
    expect(sayToldInEnglish(status.missing)).toBe(
      'not yet, because it takes confirmed practice: 2 of 3 sessions and 1.5 of 2 hours so far',
    );
  });
});

describe('an older version of the unit', () => {
  it('counts no more once the unit asks for a newer one', () => {
    const newer = { ...ONE_PRACTICAL, since: 2 };
    expect(ask([first], LATER, newer)).toMatchObject({ state: 'not-yet', why: 'old-version' });
    const again = signed({ at: '2026-04-01T10:00:00.000Z', version: '2' });
    expect(ask([first, again], LATER, newer).state).toBe('signed-off');
  });
});

describe("the organisation's interval", () => {
  const short = rules({ months: 12 }, '2026-05-01T00:00:00.000Z');
  it.each([
    ['on its last day', '2027-03-03T23:59:59.000Z', 'signed-off'],
    ['as the last day ends', '2027-03-04T00:00:00.000Z', 'ended'],
    ['a second later', '2027-03-04T00:00:01.000Z', 'ended'],
  ])('ends a sign-off %s, though it was signed for longer', (_, at, state) => {
    expect(ask([first, short], at).state).toBe(state);
  });
});

describe('a second trainer', () => {
  const strict = rules({ second: 'practical-and-authorisation' });
  const agreed = cosigned('s1', 'agrees', { at: '2026-03-08T10:00:00.000Z' });
  const against = cosigned('s1', 'disagrees', { at: '2026-03-08T10:00:00.000Z' });
  it.each([
    [
      'waits before the co-signature',
      [strict, first, agreed],
      '2026-03-08T09:59:59.000Z',
      'not-yet',
    ],
    [
      'is there at the co-signature',
      [strict, first, agreed],
      '2026-03-08T10:00:00.000Z',
      'signed-off',
    ],
    ['is there after it', [strict, first, agreed], '2026-03-08T10:00:01.000Z', 'signed-off'],
    ['who does not agree ends it', [first, against], '2026-03-08T10:00:00.000Z', 'not-yet'],
    ['has not spoken a second before', [first, against], '2026-03-08T09:59:59.000Z', 'signed-off'],
    [
      'who does not agree outweighs one who does',
      [
        strict,
        first,
        agreed,
        cosigned('s1', 'disagrees', { by: 't3', at: '2026-03-09T00:00:00.000Z' }),
      ],
      LATER,
      'not-yet',
    ],
    [
      'may come round',
      [first, against, cosigned('s1', 'agrees', { at: '2026-03-09T00:00:00.000Z' })],
      LATER,
      'signed-off',
    ],
    [
      'is not who signed',
      [strict, first, cosigned('s1', 'agrees', { by: 't1' })],
      LATER,
      'not-yet',
    ],
    [
      'is not who was watched',
      [strict, first, cosigned('s1', 'agrees', { by: 'p1' })],
      LATER,
      'not-yet',
    ],
    [
      'is a trainer at the time',
      [strict, role('t2', 'trainee', '2026-01-01T00:00:00.000Z'), first, agreed],
      LATER,
      'not-yet',
    ],
    [
      'does not count by an altered yes',
      [strict, first, cosigned('s1', 'agrees', { altered: true })],
      LATER,
      'not-yet',
    ],
    [
      'still counts by an altered no',
      [first, cosigned('s1', 'disagrees', { altered: true })],
      LATER,
      'not-yet',
    ],
    [
      'is not asked for by a rule made later',
      [first, rules({ second: 'practical-and-authorisation' }, '2026-04-01T00:00:00.000Z')],
      LATER,
      'signed-off',
    ],
  ])('%s', (_, events, at, state) => {
    expect(ask(events, at).state).toBe(state);
  });

  it('leaves an older sign-off in force while a newer one waits for them', () => {
    const older = signed({ id: 's0', at: '2025-06-01T10:00:00.000Z' });
    expect(ask([strict, older, first], LATER)).toMatchObject({
      state: 'signed-off',
      by: { id: 's0' },
    });
  });

  it('is named where they do not agree', () => {
    expect(ask([first, against], LATER)).toMatchObject({ why: 'not-agreed', second: 't2' });
  });
});

describe('an appeal settled as "watch again"', () => {
  const appeal = event(
    'practical.answered',
    'p1',
    { signoff: 's1', answer: 'appeals', words: 'The blade was blunt.' },
    { id: 'a1', by: 'p1', at: '2026-03-10T10:00:00.000Z' },
  );
  const settle = (outcome: string, over: { by?: string; altered?: boolean } = {}) =>
    event(
      'appeal.settled',
      'p1',
      { appeal: 'a1', outcome, reason: 'Looked at it.' },
      { by: 't2', at: '2026-03-12T10:00:00.000Z', ...over },
    );
  const again = settle('watch-again');
  const bySame = signed({ id: 's5', at: '2026-04-01T10:00:00.000Z' });
  const byOther = signed({ id: 's6', at: '2026-04-02T10:00:00.000Z', trainer: 't2' });
  const bySameLater = signed({ id: 's7', at: '2026-04-03T10:00:00.000Z' });

  it.each([
    ['holds a second before', [first, appeal, again], '2026-03-12T09:59:59.000Z', 'signed-off'],
    ['is suspended at it', [first, appeal, again], '2026-03-12T10:00:00.000Z', 'not-yet'],
    ['is suspended after it', [first, appeal, again], '2026-03-12T10:00:01.000Z', 'not-yet'],
    [
      'stays so though the same trainer watches again',
      [first, appeal, again, bySame],
      LATER,
      'not-yet',
    ],
    ['is lifted by another trainer', [first, appeal, again, bySame, byOther], LATER, 'signed-off'],
    [
      'is free again for the first one then',
      [first, appeal, again, byOther, bySameLater],
      LATER,
      'signed-off',
    ],
    ['holds while the appeal is open', [first, appeal], LATER, 'signed-off'],
    [
      'holds when it is settled as it stands',
      [first, appeal, settle('stands')],
      LATER,
      'signed-off',
    ],
    [
      'holds when the signer settled it',
      [first, appeal, settle('watch-again', { by: 't1' })],
      LATER,
      'signed-off',
    ],
    [
      'is suspended by an altered outcome',
      [first, appeal, settle('watch-again', { altered: true })],
      LATER,
      'not-yet',
    ],
  ])('%s', (_, events, at, state) => {
    expect(ask(events, at).state).toBe(state);
  });

  it('is told as such', () => {
    expect(ask([first, appeal, again], LATER)).toMatchObject({ why: 'watch-again' });
  });

  it('keeps a "not yet" by the same trainer', () => {
    const not = signed({ id: 'n', at: '2026-04-01T10:00:00.000Z', decision: 'not-yet' });
    expect(ask([first, appeal, again, not], LATER)).toMatchObject({
      state: 'not-yet',
      by: { id: 'n' },
    });
  });
});

describe('the two clocks', () => {
  it('counts a practical from the earlier of the two', () => {
    const ahead = signed({
      at: '2026-09-01T10:00:00.000Z',
      received: '2026-03-03T10:00:00.000Z',
      observedAt: '2026-03-03',
    });
    expect(ask([ahead], '2026-03-03T09:59:59.000Z').state).toBe('not-yet');
    expect(ask([ahead], '2026-03-03T10:00:00.000Z').state).toBe('signed-off');
    const offline = signed({
      at: '2026-03-03T10:00:00.000Z',
      received: '2026-03-09T10:00:00.000Z',
    });
    expect(ask([offline], '2026-03-03T10:00:00.000Z').state).toBe('signed-off');
  });

  it('keeps signatures of a device whose key ended later', () => {
    const lost = event(
      'device-key.ended',
      't1',
      { keyId: 'k', reason: 'Tablet lost.' },
      { at: '2026-03-20T10:00:00.000Z' },
    );
    expect(ask([first, lost], LATER)).toEqual(ask([first], LATER));
    expect(ask([first, lost], LATER).state).toBe('signed-off');
  });
});

describe('what the unit files ask for', () => {
  it('is two practicals on two days at the blade, and confirmed practice in the running of it', () => {
    const asked = [...loadUnits('content').values()]
      .sort((a, b) => a.number - b.number)
      .map(({ evidence: { practicals, days, practice } }) => [practicals, days, practice]);
    const practice = { sessions: 3, hours: 2 };
    expect(asked).toEqual([
      [1, 1, null],
      [1, 1, null],
      [2, 2, null],
      [2, 2, null],
      [2, 2, practice],
      [2, 2, practice],
      [1, 1, null],
      [1, 1, null],
    ]);
  });
});
