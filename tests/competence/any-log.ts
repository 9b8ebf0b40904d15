import fc from 'fast-check';
import type { LogEvent } from '../../src/competence/index.ts';

/** Events of every kind the competence rules read, at random, about few people and machines so that they meet. */
const instant = fc
  .integer({ min: Date.UTC(2026, 0, 1), max: Date.UTC(2027, 11, 31) })
  .map((at) => new Date(at).toISOString());
const day = instant.map((at) => at.slice(0, 10));
const person = fc.constantFrom('p1', 'p2', 't1', 't2', 'e1');
const bench = fc.constantFrom('b1', 'b2');
const work = fc.constantFrom('rip', 'crosscut');
const ref = fc.constantFrom('r0', 'r1', 'r2', 'r3', 'r4', 'r5');
const answer = fc.constantFrom('agrees', 'disagrees');

const statement = fc.record({
  who: fc.record({ person: fc.constantFrom('p1', 'p2') }),
  trainer: fc.record({ person: fc.constantFrom('t1', 't2') }),
  unit: fc.record({ id: fc.constantFrom('plan', 'rip'), version: fc.constant('1') }),
  bench: fc.record({ id: bench }),
  work,
  observedAt: day,
  validFrom: fc.constant('2026-01-01'),
  validUntil: fc.constant('2028-12-31'),
  decision: fc.constantFrom('signed-off', 'signed-off', 'not-yet'),
});
const leave = fc.record({
  who: fc.record({ person: fc.constantFrom('p1', 'p2') }),
  by: fc.record({ person: fc.constantFrom('e1', 't1'), role: fc.constant('employer') }),
  bench: fc.record({ id: bench, asset: fc.constant('AL-01') }),
  work: fc.constantFrom(['rip'], ['crosscut'], ['rip', 'crosscut']),
  from: day,
  until: fc.constant('2028-12-31'),
  supervised: fc.constantFrom('always', 'as-usual'),
  largest: fc.constant({ thickness: null, length: null }),
  conditions: fc.constant([]),
  age: fc.constant({ rule: 'local-law', answer: 'old-enough' }),
  basis: fc.constant(['r0']),
});

export const screenBodies: Record<string, fc.Arbitrary<object>> = {
  'attempt.started': fc.record({ task: fc.string(), person }),
  // an attempt may carry anything the browser sent, a forged statement included
  'attempt.submitted': fc.record({ score: fc.integer(), statement, signoff: ref }),
  'sitting.set': fc.record({ sitting: ref }),
  'sitting.started': fc.record({ sitting: ref }),
  'sitting.handed-in': fc.record({ sitting: ref, passed: fc.boolean(), statement }),
  'sitting.released': fc.record({ sitting: ref }),
  'pass-mark.rated': fc.record({ blueprint: fc.string() }),
  'pass-mark.adopted': fc.record({ blueprint: fc.string() }),
  'invitation.used': fc.record({ invitation: ref }),
  'device-key.ended': fc.record({ keyId: fc.string(), reason: fc.string() }),
};
/** What papers state and nobody here has seen, with as much in it as a forger might add. */
export const paperBodies: Record<string, fc.Arbitrary<object>> = {
  'earlier.stated': fc.record({
    machine: fc.constantFrom('saw-bench', 'general'),
    day,
    until: day,
    statement,
    signoff: ref,
  }),
  'earlier.withdrawn': fc.record({ stated: ref, signoff: ref, reason: fc.constant('asked') }),
  'person.erased': fc.record({ reason: fc.constant('asked') }),
};
export const shopBodies: Record<string, fc.Arbitrary<object>> = {
  'person.joined': fc.record({ role: fc.constantFrom('trainee', 'trainer', 'employer') }),
  'person.role-changed': fc.record({ role: fc.constantFrom('trainee', 'trainer', 'employer') }),
  'organisation.rules-set': fc.record({
    months: fc.constantFrom(6, 36),
    breakMonths: fc.constantFrom(1, 12, 36),
    noticeDays: fc.constant(60),
    second: fc.constantFrom('nothing', 'authorisation', 'practical-and-authorisation'),
  }),
  'bench.registered': fc.record({
    bench,
    change: fc.constantFrom('entry', 'guard', 'machine'),
    file: fc.record({
      guard: fc.record({ kind: fc.constantFrom('fixed', 'hung') }),
      arbor: fc.record({ largestBlade: fc.constantFrom(400, 500), runDown: fc.constant(9) }),
    }),
  }),
  'bench.checked': fc.record({
    bench,
    verdict: fc.constantFrom('fit', 'fit', 'not-fit'),
    checks: fc.constant([{ id: 'guard', result: 'sound', note: null }]),
  }),
  'bench.taken-out': fc.record({ bench, reason: fc.constant('Cracked.') }),
  'bench.returned': fc.record({ bench, done: fc.constant('Mended.') }),
  'near-miss.reported': fc.record({
    bench,
    happenedAt: instant,
    people: fc.constantFrom([], ['p1'], ['p2']),
  }),
  'practice.noted': fc.record({
    session: ref,
    bench,
    work,
    supervisor: fc.constantFrom('t1', 'p2'),
    startedAt: fc.constant('2026-03-05T08:00:00.000Z'),
    endedAt: fc.constant('2026-03-05T10:00:00.000Z'),
    done: fc.constant('Ripped.'),
  }),
  'practice.confirmed': fc.record({
    session: ref,
    answer: fc.constantFrom('yes', 'no'),
    note: fc.constant(null),
  }),
  'authorisation.given': fc.record({ statement: leave }),
  'authorisation.seconded': fc.record({ authorisation: ref, answer }),
  'authorisation.suspended': fc.record({ authorisation: ref, reason: fc.constant('Rests.') }),
  'authorisation.refreshed': fc.record({
    authorisation: ref,
    how: fc.constantFrom('practical', 'talked-through'),
    signoff: ref,
  }),
  'authorisation.ended': fc.record({ authorisation: ref, reason: fc.constant('Left.') }),
};
export const practicalBodies: Record<string, fc.Arbitrary<object>> = {
  'practical.signed': fc.record({ signoff: ref, statement }),
  'practical.withdrawn': fc.record({ signoff: ref, reason: fc.constant('Taken back.') }),
  'practical.cosigned': fc.record({
    statement: fc.record({ signoff: ref, answer, trainer: fc.record({ person }) }),
  }),
  'practical.answered': fc.record({
    signoff: ref,
    answer: fc.constantFrom('agrees', 'disagrees', 'appeals'),
    words: fc.constant(null),
  }),
  'appeal.settled': fc.record({ appeal: ref, outcome: fc.constantFrom('stands', 'watch-again') }),
};

/** Events made of these kinds; the ids that other events name are the ids of some of them. */
export const logOf = (bodies: Record<string, fc.Arbitrary<object>>, most: number, least = 0) =>
  fc
    .array(
      fc.constantFrom(...Object.keys(bodies)).chain((kind) =>
        fc.record({
          kind: fc.constant(kind),
          body: bodies[kind] as fc.Arbitrary<object>,
          at: instant,
          received: instant,
          by: person,
          about: person,
          altered: fc.constantFrom(false, false, false, false, true),
        }),
      ),
      { minLength: least, maxLength: most },
    )
    .map((events) => events.map((one, place) => settle(one, place)));

type Raw = Omit<LogEvent, 'id'>;

/** Gives an event its id, and makes most of the names in it agree, as the records ask for. */
function settle(raw: Raw, place: number): LogEvent {
  const id = `r${place}`;
  const body = { ...raw.body } as Record<string, never> & { statement?: Record<string, unknown> };
  const named = (body.statement ?? {}) as {
    who?: { person: string };
    by?: { person: string };
    trainer?: { person: string };
  };
  const { by, who, trainer } = named;
  return {
    ...raw,
    id,
    by: trainer?.person ?? by?.person ?? (raw.kind === 'practice.confirmed' ? 't1' : raw.by),
    about: who?.person ?? (raw.kind === 'practice.noted' ? 'p1' : raw.about),
    body: {
      ...body,
      ...(raw.kind === 'practical.signed' ? { signoff: id } : {}),
      ...(raw.kind === 'practice.noted' ? { session: id } : {}),
    },
  };
}
