import { describe, expect, it } from 'vitest';
import { type Sheet, settleReadings, unitToWatch } from '../../src/competence/index.ts';
import { loadLimitSets, loadUnits } from '../../src/store/content-files.ts';
import { makeBench } from '../helpers/bench.ts';

const sets = loadLimitSets('content');
const set = (id: string) => {
  const found = sets.get(id);
  if (found === undefined) throw new Error(`no limit set ${id}`);
  return found;
};
const unit = loadUnits('content').get('set-knife-and-guard');
if (unit === undefined) throw new Error('no unit');

type Reading = Sheet['readings'][number];
const reading = (setting: string, value: number, over: Partial<Reading> = {}): Reading => ({
  setting,
  value,
  unit: 'mm',
  instrument: 'feeler',
  ...over,
});

function judged(limits: string, one: Reading, over: { work?: Sheet['work'] } = {}) {
  const blade = { diameter: 400, kerf: 4.2, plate: 2.8, teeth: 36 };
  return settleReadings({ readings: [one], blade, work: over.work ?? 'rip' }, unit as never, {
    bench: makeBench(),
    set: set(limits),
    practice: set('practice'),
  }).map(({ signed }) => ({ limit: signed.limit, verdict: signed.verdict, margin: signed.margin }));
}

describe('a knife gap read at the table, Great Britain', () => {
  // HSE, circular saw bench (rip saw) page: the gap at the table not more than 8 mm when ripping;
  // decision rule of ISO 14253-1 with U of the instrument (feeler 0.05 mm, rule 0.5 mm)
  it.each([
    [8, 'feeler', 'too-close'],
    [7.95, 'feeler', 'within'],
    [8.05, 'feeler', 'too-close'],
    [8.06, 'feeler', 'outside'],
    [7.5, 'rule', 'within'],
    [7.8, 'rule', 'too-close'],
    [8.6, 'rule', 'outside'],
  ] as const)('%d mm with a %s is %s', (value, instrument, verdict) => {
    const [first] = judged('gb', reading('gap-at-table', value, { instrument }));
    expect(first).toMatchObject({ limit: 'gb.knife.gap', verdict });
  });

  it('is the same in inches: 5/16 in is 7.9375 mm (1 in = 25.4 mm exactly)', () => {
    const [first] = judged('gb', reading('gap-at-table', 5 / 16, { unit: 'inch' }));
    expect(first?.verdict).toBe('within');
    expect(first?.margin).toBeCloseTo((8 - 7.9375) / 25.4, 5);
  });

  it('has no limit in force when crosscutting, and says so', () => {
    const [first] = judged('gb', reading('gap-at-table', 12), { work: 'crosscut' });
    expect(first?.verdict).toBe('not-applicable');
  });
});

describe('a knife thickness', () => {
  const thickness = (limits: string, value: number) =>
    judged(limits, reading('knife-thickness', value, { instrument: 'calliper' }));

  it('is held against plate and kerf, each difference carrying both readings', () => {
    // JCGM 100:2008, 5.1.2: 0.05 and 0.05 in quadrature are 0.0707
    const blade = { diameter: 400, kerf: 4.2, plate: 2.8, teeth: 36 };
    const settled = settleReadings(
      {
        readings: [reading('knife-thickness', 3.2, { instrument: 'calliper' })],
        blade,
        work: 'rip',
      },
      unit as never,
      { bench: makeBench(), set: set('gb'), practice: set('practice') },
    );
    expect(settled.map(({ signed }) => [signed.measure, signed.value, signed.uncertainty])).toEqual(
      [
        ['knife.overPlate', 0.4, 0.070711],
        ['knife.underKerf', 1, 0.070711],
      ],
    );
  });

  it('no thicker than the plate is not within (HSE page: thicker than the plate)', () => {
    expect(thickness('gb', 2.8)[0]).toMatchObject({
      limit: 'gb.knife.thicker',
      verdict: 'too-close',
    });
    expect(thickness('gb', 2.6)[0]?.verdict).toBe('outside');
  });

  it('as thick as the kerf is not within (HSE page: thinner than the cut)', () => {
    expect(thickness('gb', 4.4)[1]).toMatchObject({
      limit: 'gb.knife.thinner',
      verdict: 'outside',
    });
  });

  it('2.95 on a plate of 2.8 fails plate + 0.2 (EN 1870-1, riving-knife clause a)', () => {
    const [first] = thickness('eu', 2.9);
    expect(first).toMatchObject({ limit: 'eu.knife.thicker', verdict: 'outside' });
  });
});

describe('where the set has no figure', () => {
  it('common practice is shown as advice, and never decides', () => {
    const [first] = judged('gb', reading('gap-widest', 14));
    expect(first).toMatchObject({ limit: 'practice.knife.gap', verdict: 'advice' });
  });

  it('practice decides where practice is the set in force', () => {
    const [first] = judged('practice', reading('gap-widest', 14));
    expect(first).toMatchObject({ limit: 'practice.knife.gap', verdict: 'outside' });
  });
});

describe('the unit as one sheet asks it', () => {
  it('drops settings no limit speaks of', () => {
    const gb = unitToWatch(unit as never, 'rip', [set('gb'), set('practice')]);
    const eu = unitToWatch(unit as never, 'rip', [set('eu'), set('practice')]);
    expect(gb.settings.map(({ id }) => id)).not.toContain('gap-narrowest');
    // EN 1870-1, 6.3 p: not less than 3 mm
    expect(eu.settings.map(({ id }) => id)).toContain('gap-narrowest');
  });
});
