import fc from 'fast-check';
import { expect, it } from 'vitest';
import {
  changeUnit,
  type Draft,
  draftOfUnit,
  emptyPractical,
  findBlockers,
  heardOf,
  isTouched,
  leaveOut,
  NOT_HEARD,
  type PracticalDraft,
  photosOf,
  stoppedIn,
  takeInDraft,
} from '../../src/competence/sheet/index.ts';

const start = {
  today: '2026-03-03',
  place: '',
  blade: { diameter: 400, teeth: 28 },
  unit: 'mm',
  validUntil: '2029-03-03',
} as const;
const empty = emptyPractical('01890a5d-ac96-774b-bcce-b302099a8057', start);

const UNITS = ['plan', 'set', 'rip'];
const unit = fc.constantFrom(...UNITS);
const answer = fc.record({
  result: fc.constantFrom('yes' as const, 'no' as const, 'not-seen' as const),
  note: fc.string({ maxLength: 8 }),
});
const part: fc.Arbitrary<Partial<Draft>> = fc.oneof(
  fc.record({
    criteria: fc.dictionary(fc.constantFrom('a', 'b'), answer, { noNullPrototype: true }),
  }),
  fc.record({ place: fc.string({ minLength: 1, maxLength: 8 }) }),
  fc.record({ decision: fc.constantFrom('signed-off' as const, 'not-yet' as const) }),
  fc.record({ stops: fc.constantFrom([], ['draws-back']) }),
);
const changes = fc.array(fc.tuple(unit, part), { maxLength: 12 });
const after = (steps: readonly (readonly [string, Partial<Draft>])[]): PracticalDraft =>
  steps.reduce((draft, [id, change]) => changeUnit(draft, id, change), empty);

it('a change to one unit is found again in it and touches no other unit', () => {
  fc.assert(
    fc.property(changes, unit, part, (steps, id, change) => {
      const before = after(steps);
      const now = changeUnit(before, id, change);
      expect(draftOfUnit(now, id)).toMatchObject(change);
      for (const other of UNITS.filter((one) => one !== id)) {
        expect(now.units[other]).toEqual(before.units[other]);
      }
    }),
  );
});

it('what is asked once is the same in every unit', () => {
  fc.assert(
    fc.property(changes, (steps) => {
      const draft = after(steps);
      const places = new Set(UNITS.map((id) => draftOfUnit(draft, id).place));
      expect(places.size).toBe(1);
    }),
  );
});

it('a unit left out is untouched, without photos, and the others stay as they were', () => {
  fc.assert(
    fc.property(changes, unit, (steps, id) => {
      const photos = UNITS.map((one) => ({ digest: one, unit: one, criterion: null }));
      const before = { ...after(steps), photos };
      const now = leaveOut(before, id);
      expect(isTouched(now, id)).toBe(false);
      expect(photosOf(now, id)).toEqual([]);
      for (const other of UNITS.filter((one) => one !== id)) {
        expect(draftOfUnit(now, other)).toEqual(draftOfUnit(before, other));
        expect(photosOf(now, other)).toHaveLength(1);
      }
    }),
  );
});

it('the work counts as stopped exactly when a unit holds an error that stops it', () => {
  fc.assert(
    fc.property(changes, (steps) => {
      const draft = after(steps);
      const holds = UNITS.filter((id) => draftOfUnit(draft, id).stops.length > 0);
      expect(stoppedIn(draft) === null).toBe(holds.length === 0);
      if (holds.length > 0) expect(holds).toContain(stoppedIn(draft));
    }),
  );
});

it('sheets of single units come together in one, and the first says what is asked once', () => {
  const of = (place: string, result: 'yes' | 'no'): Draft => ({
    ...draftOfUnit(empty, 'set'),
    place,
    criteria: { a: { result, note: '' } },
  });
  const first = takeInDraft(empty, 'set', of('Machine shop', 'yes'));
  const both = takeInDraft(first, 'rip', of('Yard', 'no'));
  expect(draftOfUnit(both, 'set').criteria['a']?.result).toBe('yes');
  expect(draftOfUnit(both, 'rip').criteria['a']?.result).toBe('no');
  expect(both.shared.place).toBe('Machine shop');
});

it('nobody is heard without an answer, and only who agrees needs no words', () => {
  const heard = (answer: 'agrees' | 'disagrees' | 'not-asked' | null, words: string) =>
    heardOf({ ...empty, heard: { answer, words } });
  expect(heardOf({ ...empty, heard: NOT_HEARD })).toBeNull();
  expect(heard(null, 'said')).toBeNull();
  expect(heard('agrees', '  ')).toEqual({ answer: 'agrees', words: null });
  expect(heard('disagrees', '  ')).toBeNull();
  expect(heard('not-asked', '')).toBeNull();
  expect(heard('not-asked', ' Went home. ')).toEqual({ answer: 'not-asked', words: 'Went home.' });
});

it('each thing in the way names the field where it is mended', () => {
  const asked = {
    schema: 'unit/1' as const,
    id: 'set',
    number: 3,
    version: 1,
    title: 'Set',
    about: 'Set it.',
    work: ['rip' as const],
    criteria: [{ id: 'locked', text: 'Locks it.' }],
    settings: [
      {
        id: 'gap',
        ask: 'Gap',
        gives: [{ measure: 'knife.gapMax' as const, from: 'reading' as const }],
        range: [0, 50] as [number, number],
        instruments: ['rule' as const],
        needed: true,
      },
    ],
    stops: [],
    evidence: { since: 1, practicals: 1, days: 1, practice: null, screen: [] },
    heldAgainst: [],
  } as unknown as Parameters<typeof findBlockers>[0]['unit'];
  const standing = { unit: asked, read: [], settled: [], largestBlade: 400 };
  const found = findBlockers({ ...standing, answerOf: () => 'no', stops: [], diameter: 450 });
  expect(found.map(({ field }) => field)).toEqual([
    'criterion.locked',
    'reading.gap',
    'blade.diameter',
  ]);
  const stopped = findBlockers({
    ...standing,
    answerOf: () => 'yes',
    stops: ['draws-back'],
    diameter: 400,
  });
  expect(stopped.map(({ told }) => told.key)).toEqual(['blocker.stopped']);
});
