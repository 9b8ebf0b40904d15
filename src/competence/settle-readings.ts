import { type Bench, INSTRUMENTS } from '../bench/index.ts';
import { inchesToMm, mmToInches } from '../geometry/index.ts';
import { judgeReadings, type LimitSet, type Result, sayLimit, saySource } from '../limits/index.ts';
import type { BladeSeen, Reading, Settled } from './sheet/index.ts';
import { unitFor } from './sheet/index.ts';
import type { Unit, UnitSetting } from './unit-schema.ts';
import type { Work } from './work.ts';

/** What readings are held against: the bench on record, and the set in force with practice behind it. */
export type Judging = {
  readonly bench: Bench;
  readonly set: LimitSet;
  /** common practice of the trade: shown as advice where the set has no figure */
  readonly practice: LimitSet;
};

/** Guards of the other kinds keep the shape on record; only what was seen at the machine is changed. */
function benchAtHand(bench: Bench, blade: BladeSeen, work: Work): Bench {
  return { ...bench, blade: { ...bench.blade, ...blade }, job: { ...bench.job, cut: work } };
}

type Gives = UnitSetting['gives'][number];
type Worth = { readonly value: number; readonly uncertainty: number };

/**
 * What a reading is worth as a measure, mm. A difference of two calliper readings carries both
 * uncertainties, added in quadrature (JCGM 100:2008, 5.1.2).
 */
function worthOf(reading: Reading, gives: Gives, blade: BladeSeen): Worth {
  const value = reading.unit === 'inch' ? inchesToMm(reading.value) : reading.value;
  const own = INSTRUMENTS[reading.instrument].uncertainty;
  const both = Math.hypot(own, INSTRUMENTS.calliper.uncertainty);
  switch (gives.from) {
    case 'reading':
      return { value, uncertainty: own };
    case 'reading-less-plate':
      return { value: value - blade.plate, uncertainty: both };
    case 'kerf-less-reading':
      return { value: blade.kerf - value, uncertainty: both };
  }
}

/** To a thousandth of a micron, so that the same reading always makes the same bytes. */
function tidy(value: number): number {
  const rounded = Number(value.toFixed(6));
  return rounded === 0 ? 0 : rounded;
}

const applies = (result: Result): boolean => result.verdict !== 'not-applicable';

/** The set's own limits; where it has none in force, those of practice as advice. */
function judgeOne(bench: Bench, gives: Gives, worth: Worth, { set, practice }: Judging): Result[] {
  const readings = [{ measure: gives.measure, ...worth }];
  const own = judgeReadings(bench, readings, set);
  if (own.some(applies)) return own.filter(applies);
  const habit = judgeReadings(bench, readings, practice)
    .filter(applies)
    .map((result): Result => ({ ...result, verdict: 'advice', failed: null }));
  return habit.length > 0 && set.id !== practice.id ? habit : own.slice(0, 1);
}

/**
 * Each reading held against the limits in force, ready to be signed. The value, uncertainty and
 * margin are in the unit the trainer read, inches or millimetres.
 */
export function settleReadings(
  { readings, blade, work }: { readings: readonly Reading[]; blade: BladeSeen; work: Work },
  unit: Unit,
  judging: Judging,
): Settled[] {
  const bench = benchAtHand(judging.bench, blade, work);
  const limits = new Map([...judging.practice.limits, ...judging.set.limits].map((l) => [l.id, l]));
  return readings.flatMap((reading) => {
    const setting = unit.settings.find(({ id }) => id === reading.setting);
    if (setting === undefined) return [];
    const shown = (mm: number) => tidy(reading.unit === 'inch' ? mmToInches(mm) : mm);
    return setting.gives.flatMap((gives) => {
      const worth = worthOf(reading, gives, blade);
      return judgeOne(bench, gives, worth, judging).map((result): Settled => {
        const limit = limits.get(result.limit);
        return {
          setting: setting.id,
          signed: {
            measure: gives.measure,
            value: shown(worth.value),
            unit: reading.unit,
            instrument: INSTRUMENTS[reading.instrument].title,
            uncertainty: shown(worth.uncertainty),
            limit: result.limit,
            verdict: result.verdict,
            margin: result.margin === null ? null : shown(result.margin),
            source: saySource(result.source),
          },
          title: result.title,
          asks: limit === undefined ? '' : sayLimit(limit, result, reading.unit),
          grade: result.grade,
          critical: result.critical,
          note: result.note,
          instrument: reading.instrument,
        };
      });
    });
  });
}

/**
 * The unit as one sheet asks it: for this work, and without settings that no limit of the set or of
 * practice speaks of, since a figure held against nothing proves nothing.
 */
export function unitToWatch(unit: Unit, work: Work, sets: readonly LimitSet[]): Unit {
  const spoken = new Set(sets.flatMap(({ limits }) => limits.map(({ measure }) => measure)));
  const watched = unitFor(unit, work);
  return {
    ...watched,
    settings: watched.settings.filter(({ gives }) =>
      gives.some(({ measure }) => spoken.has(measure)),
    ),
  };
}
