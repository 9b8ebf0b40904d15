import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { INSTRUMENTS } from '../../src/bench/index.ts';
import { lastDayAllowed, SheetSchema, type Unit, unitToWatch } from '../../src/competence/index.ts';
import {
  blockersOf,
  checkDraft,
  type Draft,
  type DraftContext,
  emptyDraft,
  type Settled,
  writeStatement,
} from '../../src/competence/sheet/index.ts';
import { newId, StatementSchema, withMeaning } from '../../src/records/index.ts';
import { loadLimitSets, loadUnits } from '../../src/store/content-files.ts';

const sets = [...loadLimitSets('content').values()];
const whole = loadUnits('content').get('set-knife-and-guard') as Unit;
const unit = unitToWatch(whole, 'rip', sets);
const onRecord = { diameter: 400, kerf: 4.2, plate: 2.8, teeth: 36 };
const TODAY = '2026-03-03';

const context: DraftContext = {
  subject: { person: 'p1', bench: 'b1', work: 'rip', unit: unit.id },
  unit,
  today: TODAY,
  firstDay: TODAY,
  lastDayOf: (observed) => lastDayAllowed(observed),
  instruments: INSTRUMENTS,
  blade: onRecord,
};

const empty = emptyDraft({
  today: TODAY,
  place: 'Machine shop',
  blade: onRecord,
  unit: 'mm',
  validUntil: '2029-03-03',
});

const full: Draft = {
  ...empty,
  material: 'Redwood',
  blade: { ...empty.blade, kerf: { text: '4,2', unit: 'mm' }, plate: { text: '2.8', unit: 'mm' } },
  criteria: Object.fromEntries(unit.criteria.map(({ id }) => [id, { result: 'yes', note: '' }])),
  readings: Object.fromEntries(
    unit.settings.map(({ id, instruments }) => [
      id,
      { text: '4', unit: 'mm', instrument: instruments[0] ?? 'rule' },
    ]),
  ),
  decision: 'signed-off',
};

const problemOf = (draft: Draft, over: Partial<DraftContext> = {}) => {
  const checked = checkDraft(draft, { ...context, ...over });
  return checked.ok ? null : checked.problem;
};

describe('a sheet to be signed off', () => {
  it('passes when it is whole, and the site takes the same values', () => {
    const checked = checkDraft(full, context);
    expect(checked.ok).toBe(true);
    if (!checked.ok) return;
    expect(checked.sheet).toMatchObject({
      blade: { kerf: 4.2 },
      validFrom: TODAY,
      decision: 'signed-off',
    });
    expect(SheetSchema.parse(checked.sheet)).toEqual(checked.sheet);
  });

  const [first] = unit.criteria;
  const reading = (text: string, over = {}) => ({
    ...full,
    readings: {
      ...full.readings,
      'gap-at-table': { text, unit: 'mm' as const, instrument: 'feeler' as const, ...over },
    },
  });
  it.each<[string, Draft, string, string]>([
    [
      'no place',
      { ...full, place: ' ' },
      'place',
      'Place must be filled in, with 1 to 120 characters.',
    ],
    [
      'a long place',
      { ...full, place: 'x'.repeat(121) },
      'place',
      'Place must be at most 120 characters.',
    ],
    ['no stock', { ...full, material: '' }, 'material', 'Stock must be filled in'],
    [
      'a day to come',
      { ...full, observedAt: '2026-03-04' },
      'observedAt',
      'Day of the practical must be a date from 31 January 2026 to 3 March 2026.',
    ],
    [
      'a day that is none',
      { ...full, observedAt: '2026-02-30' },
      'observedAt',
      'must be a date from',
    ],
    [
      'a plate wider than the kerf',
      { ...full, blade: { ...full.blade, plate: { text: '4.3', unit: 'mm' } } },
      'blade.plate',
      'Blade plate must be at most the kerf, 4.2 mm.',
    ],
    [
      'a kerf out of range',
      { ...full, blade: { ...full.blade, kerf: { text: '42', unit: 'mm' } } },
      'blade.kerf',
      'Kerf must be from 0.5 to 20 mm.',
    ],
    [
      'half a tooth',
      { ...full, blade: { ...full.blade, teeth: '36.5' } },
      'blade.teeth',
      'Number of teeth must be a whole number from 2 to 200.',
    ],
    ['a reading left out', reading(''), 'reading.gap-at-table', 'must be filled in with a length.'],
    [
      'a reading out of range',
      reading('500'),
      'reading.gap-at-table',
      'must be from -5 to 100 mm.',
    ],
    [
      'a reading longer than its instrument',
      reading('60'),
      'reading.gap-at-table',
      'is longer than the feeler leaves can take, 25 mm: choose another instrument.',
    ],
    ['a reading in words', reading('tight'), 'reading.gap-at-table', 'must be one number'],
    [
      'an answer left out',
      { ...full, criteria: { ...full.criteria, [first?.id ?? '']: { result: null, note: '' } } },
      `criterion.${first?.id}`,
      'must be answered: yes, no or not seen.',
    ],
    ['no decision', { ...full, decision: null }, 'decision', 'Decision must be chosen'],
    [
      'an end beyond three years',
      { ...full, validUntil: '2029-03-04' },
      'validUntil',
      'Valid until must be a date from 3 March 2026 to 3 March 2029.',
    ],
    ['a condition too long', { ...full, conditions: 'x'.repeat(201) }, 'conditions', 'at most 200'],
    [
      'too many conditions',
      { ...full, conditions: 'x\n'.repeat(12) },
      'conditions',
      'at most 11 lines',
    ],
  ])('refuses %s, naming the field', (_, draft, field, message) => {
    const problem = problemOf(draft);
    expect(problem?.field).toBe(field);
    expect(problem?.message).toContain(message);
    expect(problem?.message).toMatch(/\.$/);
  });

  it('never throws, whatever is typed', () => {
    const typed = fc.record({
      text: fc.string(),
      unit: fc.constantFrom('mm' as const, 'inch' as const),
    });
    fc.assert(
      fc.property(fc.string(), typed, typed, fc.string(), (place, kerf, gap, until) => {
        const checked = checkDraft(
          {
            ...full,
            place,
            validUntil: until,
            blade: { ...full.blade, kerf },
            readings: { ...full.readings, 'gap-at-table': { ...gap, instrument: 'feeler' } },
          },
          context,
        );
        if (checked.ok) expect(SheetSchema.safeParse(checked.sheet).success).toBe(true);
      }),
    );
  });
});

describe('a practical that was stopped', () => {
  const stopped: Draft = { ...empty, stops: ['loosens-while-live'], stopNote: 'Reached in.' };

  it('is a "not yet" at once, whatever was left open', () => {
    const checked = checkDraft(stopped, context);
    expect(checked).toMatchObject({
      ok: true,
      sheet: {
        decision: 'not-yet',
        validFrom: null,
        validUntil: null,
        material: 'not noted',
        blade: onRecord,
        conditions: ['Blade as it stands in the register, not measured.'],
      },
    });
    if (checked.ok) {
      expect(checked.sheet.criteria.every(({ result }) => result === 'not-seen')).toBe(true);
    }
  });

  it('cannot be signed off even when everything else was right', () => {
    const checked = checkDraft({ ...full, stops: ['knife-touches'] }, context);
    expect(checked).toMatchObject({ ok: true, sheet: { decision: 'not-yet' } });
  });
});

describe('what stands in the way of signing off', () => {
  const settled = (verdict: Settled['signed']['verdict'], grade: Settled['grade']): Settled => ({
    setting: 'gap-at-table',
    title: 'Knife gap',
    asks: 'at most 8 mm',
    grade,
    critical: false,
    note: null,
    instrument: 'feeler',
    signed: {
      measure: 'knife.gapAtTable',
      value: 8,
      unit: 'mm',
      instrument: 'Feeler leaves',
      uncertainty: 0.05,
      limit: 'gb.knife.gap',
      verdict,
      margin: 0,
      source: 'a source',
    },
  });
  const standing = (over = {}) =>
    blockersOf({
      unit,
      answerOf: () => 'yes',
      read: unit.settings.map(({ id }) => id),
      stops: [],
      settled: [settled('within', 'must')],
      diameter: 400,
      largestBlade: 450,
      ...over,
    });

  it('is nothing when all was seen, measured and within', () => expect(standing()).toEqual([]));
  it.each([
    ['a criterion not seen', { answerOf: () => 'not-seen' }, 'was not seen.'],
    ['a criterion answered no', { answerOf: () => 'no' }, 'was seen, and answered no.'],
    ['a criterion not answered', { answerOf: () => null }, 'was not answered.'],
    ['a reading left out', { read: [] }, 'has not been measured.'],
    ['a stop', { stops: ['x'] }, 'The work was stopped'],
    [
      'a setting outside',
      { settled: [settled('outside', 'should')] },
      'is outside the limit: at most 8 mm.',
    ],
    [
      'a duty too close to call',
      { settled: [settled('too-close', 'must')] },
      'is too close to call',
    ],
    [
      'a blade larger than the bench takes',
      { diameter: 451 },
      'larger than this bench takes, 450 mm',
    ],
  ])('is %s', (_, over, message) => expect(standing(over)[0]).toContain(message));

  it('is not advice, nor a recommendation too close to call', () => {
    expect(standing({ settled: [settled('advice', 'must')] })).toEqual([]);
    expect(standing({ settled: [settled('too-close', 'should')] })).toEqual([]);
  });
});

describe('the statement written from a sheet', () => {
  const signed = { signoff: newId(), org: 'o1', limits: { set: 'gb', version: '1' } };
  const hash = `sha256$${'0'.repeat(64)}`;
  const parts = {
    ...signed,
    who: { person: 'p1', nameHash: hash },
    trainer: { person: 't1', nameHash: hash },
    bench: { id: 'b1', asset: 'AL-01', guardKind: 'fixed' as const },
  };
  const write = (draft: Draft) => {
    const checked = checkDraft(draft, context);
    if (!checked.ok) throw new Error(checked.problem.message);
    return withMeaning(writeStatement(checked.sheet, [], unit, parts));
  };

  it('is one the records take, signed off and not yet', () => {
    for (const draft of [full, { ...empty, stops: ['knife-touches'] }]) {
      expect(StatementSchema.safeParse(write(draft)).error?.issues).toBeUndefined();
    }
  });

  it('carries a stop as a criterion answered no, with what happened', () => {
    const statement = write({ ...empty, stops: ['knife-touches'], stopNote: 'Heard it ring.' });
    expect(statement.criteria.at(-1)).toEqual({
      id: 'stop/knife-touches',
      text: 'The work was stopped. Gives the bench power while the knife touches the blade.',
      result: 'no',
      note: 'Heard it ring.',
    });
  });

  it('names nobody', () => {
    expect(JSON.stringify(write(full))).not.toMatch(/Mira|Ruth|@/);
  });
});
