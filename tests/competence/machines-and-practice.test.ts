import { describe, expect, it } from 'vitest';
import {
  benchStateOf,
  DEFAULT_RULES,
  type LogEvent,
  practiceOf,
  rulesOf,
} from '../../src/competence/index.ts';
import { checked, event, practised, role, rules } from './log-maker.ts';

const out = (at: string, altered?: boolean) =>
  event(
    'bench.taken-out',
    'b1',
    { bench: 'b1', reason: 'Guard cracked.' },
    { at, by: 'p1', ...(altered === undefined ? {} : { altered }) },
  );
const back = (at: string, over: { by?: string; altered?: boolean } = {}) =>
  event('bench.returned', 'b1', { bench: 'b1', done: 'New guard fitted.' }, { at, ...over });
const state = (events: readonly LogEvent[], at: string) => benchStateOf(events, 'b1', at);

describe('a machine', () => {
  const noon = '2026-03-20T12:00:00.000Z';
  const bad = checked('2026-03-20T07:00:00.000Z', { verdict: 'not-fit', note: 'Guard loose.' });
  it.each<[string, LogEvent[], string]>([
    ['with nothing said of it', [], 'in-service'],
    ['taken out', [out('2026-03-20T10:00:00.000Z')], 'out-of-service'],
    ['taken out in a second', [out('2026-03-20T12:00:01.000Z')], 'in-service'],
    ['taken out at this instant', [out(noon)], 'out-of-service'],
    ['taken out by an altered record', [out('2026-03-20T10:00:00.000Z', true)], 'out-of-service'],
    ['returned', [out('2026-03-20T10:00:00.000Z'), back(noon)], 'in-service'],
    ['returned and taken out at the same instant', [back(noon), out(noon)], 'out-of-service'],
    [
      'returned by an altered record',
      [out('2026-03-20T10:00:00.000Z'), back(noon, { altered: true })],
      'out-of-service',
    ],
    [
      'returned by somebody who is no trainer',
      [
        role('p2', 'trainee', '2026-01-01T00:00:00.000Z'),
        out('2026-03-20T10:00:00.000Z'),
        back(noon, { by: 'p2' }),
      ],
      'out-of-service',
    ],
    ['found not fit by a check', [bad], 'out-of-service'],
    ['found fit by a later check', [bad, checked(noon)], 'out-of-service'],
    ['found not fit and returned', [bad, back(noon)], 'in-service'],
  ])('%s', (_, events, expected) => {
    expect(state(events, noon).state).toBe(expected);
  });

  it('says since when, why and by whom', () => {
    expect(state([bad, out('2026-03-20T10:00:00.000Z')], noon)).toMatchObject({
      since: '2026-03-20T07:00:00.000Z',
      reason: 'Guard cracked.',
      by: 'p1',
      cause: 'taken-out',
    });
    expect(state([bad], noon)).toMatchObject({ reason: 'Guard loose.', cause: 'not-fit' });
    expect(state([bad, back(noon)], noon)).toMatchObject({
      since: noon,
      reason: 'New guard fitted.',
    });
  });

  it('keeps its checks, the newest first, and none that was altered', () => {
    const events = [
      checked('2026-03-18T07:00:00.000Z'),
      checked('2026-03-19T07:00:00.000Z', { by: 'p2' }),
      checked('2026-03-20T07:00:00.000Z', { altered: true }),
    ];
    const { checks, lastCheck } = state(events, noon);
    expect(checks.map(({ at }) => at)).toEqual([
      '2026-03-19T07:00:00.000Z',
      '2026-03-18T07:00:00.000Z',
    ]);
    expect(lastCheck).toMatchObject({ by: 'p2', verdict: 'fit' });
  });
});

describe('practice', () => {
  const start = '2026-03-05T08:00:00.000Z';
  const of = (events: readonly LogEvent[], at: string) => practiceOf(events, 'p1', at);

  it('waits until its supervisor has confirmed it, one second before, at and after', () => {
    const events = practised({ start });
    const at = (time: string) => of(events, time).sessions[0]?.state;
    expect(at('2026-03-05T08:59:59.000Z')).toBeUndefined();
    expect(at('2026-03-05T09:00:00.000Z')).toBe('awaits');
    expect(at('2026-03-06T08:59:59.000Z')).toBe('awaits');
    expect(at('2026-03-06T09:00:00.000Z')).toBe('confirmed');
    expect(at('2026-03-06T09:00:01.000Z')).toBe('confirmed');
  });

  it('that was noted before it ended is not there until it has', () => {
    const [noted] = practised({ start, answer: null });
    const early = { ...(noted as LogEvent), at: start, received: start };
    expect(of([early], '2026-03-05T08:59:59.000Z').sessions).toEqual([]);
    expect(of([early], '2026-03-05T09:00:00.000Z').sessions).toHaveLength(1);
  });

  it('is confirmed by nobody but the supervisor named, and not by an altered yes', () => {
    const [noted] = practised({ start, answer: null });
    const confirm = (over: { by?: string; altered?: boolean }) =>
      event(
        'practice.confirmed',
        'p1',
        { session: noted?.id, answer: 'yes', note: null },
        { at: '2026-03-06T09:00:00.000Z', ...over },
      );
    const later = '2026-04-01T00:00:00.000Z';
    for (const over of [{ by: 't2' }, { by: 'p1' }, { altered: true }]) {
      expect(of([noted as LogEvent, confirm(over)], later).sessions[0]?.state).toBe('awaits');
    }
    expect(of([noted as LogEvent, confirm({})], later).sessions[0]?.state).toBe('confirmed');
  });

  it('is summed by bench and work, and time noted twice counts once', () => {
    const events = [
      ...practised({ start, hours: 2 }),
      ...practised({ start: '2026-03-05T09:00:00.000Z', hours: 2 }),
      ...practised({ start, bench: 'b2', hours: 0.5 }),
      ...practised({ start, work: 'crosscut', answer: 'no' }),
      ...practised({ start, person: 'p2' }),
    ];
    expect(of(events, '2026-04-01T00:00:00.000Z').confirmed).toEqual([
      { bench: 'b1', work: 'rip', sessions: 2, hours: 3 },
      { bench: 'b2', work: 'rip', sessions: 1, hours: 0.5 },
    ]);
  });
});

describe("the organisation's rules", () => {
  const set = rules({ months: 24 }, '2026-03-05T10:00:00.000Z');
  it.each([
    ['a second before they are set', '2026-03-05T09:59:59.000Z', 36],
    ['as they are set', '2026-03-05T10:00:00.000Z', 24],
    ['a second after', '2026-03-05T10:00:01.000Z', 24],
  ])('%s', (_, at, months) => {
    expect(rulesOf([set], at).months).toBe(months);
  });

  it('are the newest by when they count from, whatever their ids', () => {
    const [older, newer] = [
      { ...rules({ months: 12 }, '2026-03-01T00:00:00.000Z'), id: 'z' },
      { ...rules({ months: 18 }, '2026-03-02T00:00:00.000Z'), id: 'a' },
    ];
    expect(rulesOf([newer, older], '2027-01-01T00:00:00.000Z').months).toBe(18);
  });

  it('are the ones documented where nothing is set, or the setting was altered', () => {
    expect(DEFAULT_RULES).toEqual({
      months: 36,
      breakMonths: 12,
      noticeDays: 60,
      second: 'nothing',
    });
    const altered = { ...set, altered: true };
    expect(rulesOf([altered], '2027-01-01T00:00:00.000Z')).toEqual(DEFAULT_RULES);
  });
});
