import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import {
  authorisationsOf,
  dueOf,
  type LogEvent,
  mayWork,
  statusOf,
} from '../../src/competence/index.ts';
import { logOf, paperBodies, practicalBodies, screenBodies, shopBodies } from './any-log.ts';
import { nameOf, UNITS } from './log-maker.ts';

const BENCHES = [
  { id: 'b1', asset: 'AL-01', work: ['rip', 'crosscut'] },
  { id: 'b2', asset: 'AL-02', work: ['rip'] },
];
const PEOPLE = ['p1', 'p2', 't1'].map((one) => ({ person: one, role: 'trainee' }));
const AT = '2027-01-01T00:00:00.000Z';

/** Everything that is said of a log. */
const allOf = (events: readonly LogEvent[]) => {
  const asked = { events, at: AT, units: UNITS, nameOf };
  return {
    standings: BENCHES.flatMap((one) =>
      ['p1', 'p2'].map((who) => {
        const question = { ...asked, person: who, bench: one.id, work: 'rip' };
        return { status: statusOf(question), may: mayWork(question) };
      }),
    ),
    leaves: ['p1', 'p2'].map((who) => authorisationsOf({ ...asked, person: who })),
    due: dueOf({ ...asked, people: PEOPLE, benches: BENCHES }),
  };
};

const everything = logOf({ ...shopBodies, ...practicalBodies }, 40, 12);

describe('whatever is in the log', () => {
  it('reads the same in any order, and with copies in it', () => {
    fc.assert(
      fc.property(everything, fc.infiniteStream(fc.nat()), (events, numbers) => {
        const keyed = events.map((one) => [numbers.next().value as number, one] as const);
        const mixed = keyed.sort(([a], [b]) => a - b).map(([, one]) => one);
        const expected = allOf(events);
        expect(allOf(mixed)).toEqual(expected);
        expect(allOf([...events, ...mixed])).toEqual(expected);
      }),
      { numRuns: 250 },
    );
  });

  it('is not changed by anything done on a screen', () => {
    fc.assert(
      fc.property(everything, logOf(screenBodies, 12), (events, screen) => {
        const apart = screen.map((one) => ({ ...one, id: `screen-${one.id}` }));
        expect(allOf([...apart, ...events])).toEqual(allOf(events));
      }),
      { numRuns: 250 },
    );
  });
});

it('earlier training stated on paper changes no status and lets nobody work', () => {
  fc.assert(
    fc.property(everything, logOf(paperBodies, 20, 1), (events, papers) => {
      const apart = papers.map((one) => ({ ...one, id: `paper-${one.id}` }));
      expect(allOf([...apart, ...events])).toEqual(allOf(events));
      expect(allOf([...events, ...apart])).toEqual(allOf(events));
    }),
    { numRuns: 150 },
  );
});

describe('the screen, the machines, practice and leave in writing', () => {
  it('never sign anybody off, and never let anybody work, while no practical is signed', () => {
    fc.assert(
      fc.property(logOf({ ...screenBodies, ...shopBodies }, 40), (events) => {
        for (const { status, may } of allOf(events).standings) {
          expect(status.state).toBe('not-yet');
          expect(
            status.because.every(({ state, signoff }) => state === 'not-yet' && signoff === null),
          ).toBe(true);
          expect(may.state).toBe('may-not');
        }
      }),
      { numRuns: 400 },
    );
  });

  it('let people work in the random logs that hold practicals, so that the rule above can fail', () => {
    const found = fc
      .sample(
        logOf(
          {
            'practical.signed': practicalBodies['practical.signed'] as never,
            'authorisation.given': shopBodies['authorisation.given'] as never,
          },
          60,
          40,
        ),
        { numRuns: 100, seed: 7 },
      )
      .flatMap((events) => allOf(events).standings.map(({ may }) => may.state));
    expect(found).toContain('may');
    expect(found).toContain('may-supervised');
  });
});
