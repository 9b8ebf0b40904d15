import { describe, expect, it } from 'vitest';
import {
  type LogEvent,
  ONE_PRACTICAL,
  sayToldInEnglish,
  tellUnitStatus,
  unitStatusOf,
} from '../../src/competence/index.ts';
import { nameOf, rules, type Signed, signed, withdrawn } from './log-maker.ts';

/** The oracle is decision 26: a stop in one unit of a practical ends all of them. */
const LATER = '2026-06-01T00:00:00.000Z';
const ask = (events: readonly LogEvent[], at = LATER, practicals = 1) =>
  unitStatusOf({
    events,
    person: 'p1',
    bench: 'b1',
    work: 'rip',
    unit: { id: 'rip', evidence: { ...ONE_PRACTICAL, practicals } },
    at,
  });

const off = signed({ id: 'k1', at: '2026-03-03T10:00:00.000Z', practical: 'pr1' });
const stopped = (over: Signed = {}) =>
  signed({
    id: 'k2',
    unit: 'plan',
    at: '2026-03-03T10:05:00.000Z',
    received: '2026-03-04T08:00:00.000Z',
    decision: 'not-yet',
    practical: 'pr1',
    stops: ['reached-over'],
    ...over,
  });

describe('a stop that reaches the log after a sign-off of the same practical', () => {
  it('takes the sign-off out of count, in whatever order they are read', () => {
    for (const events of [
      [off, stopped()],
      [stopped(), off],
    ]) {
      expect(ask(events)).toMatchObject({ state: 'not-yet', why: 'stopped', by: { id: 'k1' } });
    }
  });

  it('does so from the instant it happened, and not before', () => {
    expect(ask([off, stopped()], '2026-03-03T10:04:59.000Z').state).toBe('signed-off');
    expect(ask([off, stopped()], '2026-03-03T10:05:00.000Z').state).toBe('not-yet');
  });

  it('says why in words', () => {
    const status = ask([off, stopped()]);
    expect(sayToldInEnglish(tellUnitStatus(status, nameOf))).toMatch(
      /^not yet, because an error in another part stopped the practical .* a stop ends every part/,
    );
  });

  it('ends the run: an earlier practical counts no more', () => {
    const earlier = signed({ id: 'k0', at: '2026-03-01T10:00:00.000Z', practical: 'pr0' });
    const after = signed({ id: 'k3', at: '2026-03-09T10:00:00.000Z', practical: 'pr3' });
    expect(ask([earlier, off, after], LATER, 2).state).toBe('signed-off');
    expect(ask([earlier, off, stopped(), after], LATER, 2)).toMatchObject({ why: 'evidence' });
  });

  it('is lifted by a new practical', () => {
    const after = signed({ id: 'k3', at: '2026-03-09T10:00:00.000Z', practical: 'pr3' });
    expect(ask([off, stopped(), after]).state).toBe('signed-off');
  });

  it('does not wait for a second trainer any more', () => {
    const asked = rules({ second: 'practical-and-authorisation' });
    expect(ask([asked, off])).toMatchObject({ why: 'awaits-cosign' });
    expect(ask([asked, off, stopped()])).toMatchObject({ why: 'stopped' });
  });

  it('still forbids when its bytes were altered', () => {
    expect(ask([off, stopped({ altered: true })])).toMatchObject({ why: 'stopped' });
  });

  it.each([
    ['was taken back', [stopped(), withdrawn('k2', '2026-03-05T10:00:00.000Z')]],
    ['is of another practical', [stopped({ practical: 'pr2' })]],
    ['is of another person', [stopped({ person: 'p2' })]],
    ['is by another trainer', [stopped({ trainer: 't2' })]],
    ['is a plain "not yet" without a stop', [stopped({ stops: [] })]],
  ])('changes nothing when it %s', (_, more) => {
    expect(ask([off, ...more]).state).toBe('signed-off');
  });
});
