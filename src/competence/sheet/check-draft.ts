import type { Instrument, InstrumentId } from '../../bench/index.ts';
import { addDays, type Day, isDay, sayDay } from '../dates.ts';
import type { Unit, UnitSetting } from '../unit-schema.ts';
import { type Draft, readingOf, type SheetSubject, type TypedField } from './draft.ts';
import { rangeMessage, readLength } from './read-length.ts';
import type { Reading, Sheet } from './sheet.ts';

/** What stands in the way: the field to go to, and one sentence that names it and what it may be. */
export type SheetProblem = { readonly field: string; readonly message: string };

export type CheckedDraft =
  | { readonly ok: true; readonly sheet: Sheet }
  | { readonly ok: false; readonly problem: SheetProblem };

export type DraftContext = {
  readonly subject: SheetSubject;
  /** the unit with only what this work asks for */
  readonly unit: Unit;
  readonly instruments: Readonly<Record<InstrumentId, Instrument>>;
  /** by the trainer's own calendar: no practical lies in the future */
  readonly today: Day;
  /** first day of a sign-off: the day of signing in UTC, as the log counts */
  readonly firstDay: Day;
  /** last day a sign-off may run to, by the day the practical was seen */
  readonly lastDayOf: (observed: Day) => Day;
};

/** A practical is signed within this many days of being seen, or seen again. */
export const LONGEST_WAIT_DAYS = 31;

/** Longest text of each kind, characters, as the record takes it. */
const LONGEST = { place: 120, material: 120, note: 500, condition: 200 } as const;
const MOST_CONDITIONS = 12;

class Refused extends Error {
  readonly problem: SheetProblem;
  constructor(field: string, message: string) {
    super(message);
    this.problem = { field, message };
  }
}

const refuse = (field: string, message: string): never => {
  throw new Refused(field, message);
};

function takeText(field: string, name: string, text: string, most: number): string {
  const tidy = text.trim();
  if (tidy === '') return refuse(field, `${name} must be filled in, with 1 to ${most} characters.`);
  if (tidy.length > most) return refuse(field, `${name} must be at most ${most} characters.`);
  return tidy;
}

function takeNote(field: string, name: string, text: string): string | undefined {
  const tidy = text.trim();
  if (tidy.length > LONGEST.note)
    refuse(field, `${name} must be at most ${LONGEST.note} characters.`);
  return tidy === '' ? undefined : tidy;
}

function takeLength(
  field: string,
  name: string,
  typed: TypedField,
  range: readonly [number, number],
): number {
  const read = readLength(typed.text, typed.unit);
  if (!read.ok) return refuse(field, `${name} ${read.message}.`);
  const { mm, unit } = read.length;
  if (mm < range[0] || mm > range[1]) return refuse(field, `${name} ${rangeMessage(range, unit)}.`);
  return mm;
}

/** Millimetres to a thousandth of a micron: below that only the noise of binary fractions is left. */
const tidyNumber = (value: number): number => Number(value.toFixed(6));

function takeBlade(draft: Draft): Sheet['blade'] {
  const { blade } = draft;
  const diameter = takeLength('blade.diameter', 'Blade diameter', blade.diameter, [50, 2000]);
  const kerf = takeLength('blade.kerf', 'Kerf', blade.kerf, [0.5, 20]);
  const plate = takeLength('blade.plate', 'Blade plate', blade.plate, [0.5, 12]);
  if (plate > kerf) {
    refuse('blade.plate', `Blade plate must be at most the kerf, ${tidyNumber(kerf)} mm.`);
  }
  const teeth = Number(blade.teeth.trim());
  if (!/^\d+$/.test(blade.teeth.trim()) || teeth < 2 || teeth > 200) {
    refuse('blade.teeth', 'Number of teeth must be a whole number from 2 to 200.');
  }
  return {
    diameter: tidyNumber(diameter),
    kerf: tidyNumber(kerf),
    plate: tidyNumber(plate),
    teeth,
  };
}

/** One reading, or null when it was left empty and may be. */
function takeReading(
  draft: Draft,
  setting: UnitSetting,
  { instruments }: DraftContext,
  isNeeded: (id: string) => boolean,
): Reading | null {
  const field = `reading.${setting.id}`;
  const typed = readingOf(draft, setting, 'mm');
  if (typed.text.trim() === '' && !isNeeded(setting.id)) return null;
  const name = `"${setting.ask}"`;
  const mm = takeLength(field, name, typed, setting.range);
  const instrument = instruments[typed.instrument];
  if (Math.abs(mm) > instrument.longest) {
    return refuse(
      field,
      `${name} is longer than the ${instrument.title.toLowerCase()} can take, ${instrument.longest} mm: choose another instrument.`,
    );
  }
  const read = readLength(typed.text, typed.unit);
  const unit = read.ok ? read.length.unit : typed.unit;
  return {
    setting: setting.id,
    value: tidyNumber(unit === 'inch' ? mm / 25.4 : mm),
    unit,
    instrument: typed.instrument,
  };
}

function takeCriteria(draft: Draft, unit: Unit, isComplete: boolean): Sheet['criteria'] {
  return unit.criteria.map(({ id, text }) => {
    const answer = draft.criteria[id];
    const field = `criterion.${id}`;
    const result = answer?.result ?? (isComplete ? null : 'not-seen');
    if (result === null) return refuse(field, `"${text}" must be answered: yes, no or not seen.`);
    const note = takeNote(field, 'The note', answer?.note ?? '');
    return note === undefined ? { id, result } : { id, result, note };
  });
}

function takeConditions(text: string): string[] {
  const lines = text
    .split('\n')
    .map((line) => line.trim())
    .filter((line) => line !== '');
  if (lines.length > MOST_CONDITIONS) {
    refuse('conditions', `Conditions must be at most ${MOST_CONDITIONS} lines.`);
  }
  if (lines.some((line) => line.length > LONGEST.condition)) {
    refuse(
      'conditions',
      `Each line of the conditions must be at most ${LONGEST.condition} characters.`,
    );
  }
  return lines;
}

function takeObserved(text: string, today: Day): Day {
  const earliest = addDays(today, -LONGEST_WAIT_DAYS);
  if (!isDay(text) || text > today || text < earliest) {
    refuse(
      'observedAt',
      `Day of the practical must be a date from ${sayDay(earliest)} to ${sayDay(today)}.`,
    );
  }
  return text;
}

function takeUntil(text: string, from: Day, last: Day): Day {
  if (!isDay(text) || text < from || text > last) {
    refuse('validUntil', `Valid until must be a date from ${sayDay(from)} to ${sayDay(last)}.`);
  }
  return text;
}

/**
 * The sheet as numbers, or the first thing that stands in the way, in the order of the sheet.
 * A "not yet" needs less: what was not answered counts as not seen, and readings may stay empty.
 */
export function checkDraft(draft: Draft, context: DraftContext): CheckedDraft {
  const { subject, unit, today } = context;
  const stopped = draft.stops.length > 0;
  const isComplete = draft.decision === 'signed-off' && !stopped;
  try {
    const observedAt = takeObserved(draft.observedAt, today);
    const place = takeText('place', 'Place', draft.place, LONGEST.place);
    const material = takeText('material', 'Stock', draft.material, LONGEST.material);
    const blade = takeBlade(draft);
    const criteria = takeCriteria(draft, unit, isComplete);
    const needed = new Set(unit.settings.filter((one) => one.needed).map(({ id }) => id));
    const readings = unit.settings
      .map((setting) => takeReading(draft, setting, context, (id) => isComplete && needed.has(id)))
      .filter((reading) => reading !== null);
    const stopNote = takeNote('stopNote', 'What happened', draft.stopNote);
    const conditions = takeConditions(draft.conditions);
    const decision = stopped ? 'not-yet' : draft.decision;
    if (decision === null)
      return refuse('decision', 'Decision must be chosen: sign off, or not yet.');
    const validFrom = [observedAt, context.firstDay].sort().at(-1) ?? observedAt;
    return {
      ok: true,
      sheet: {
        ...subject,
        observedAt,
        place,
        material,
        blade,
        criteria,
        readings,
        stops: draft.stops,
        ...(stopNote === undefined ? {} : { stopNote }),
        conditions,
        decision,
        validFrom: decision === 'signed-off' ? validFrom : null,
        validUntil:
          decision === 'signed-off'
            ? takeUntil(draft.validUntil, validFrom, context.lastDayOf(observedAt))
            : null,
      },
    };
  } catch (error) {
    if (error instanceof Refused) return { ok: false, problem: error.problem };
    throw error;
  }
}
