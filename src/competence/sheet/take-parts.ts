import type { Instrument, InstrumentId } from '../../bench/index.ts';
import { mmToInches } from '../../geometry/index.ts';
import type { UnitSetting } from '../unit-schema.ts';
import { type Draft, readingOf, type TypedField } from './draft.ts';
import { readLength, tellRange } from './read-length.ts';
import type { BladeSeen, Reading } from './sheet.ts';
import { inEnglish, type ProblemWord, type Told, tell } from './tell.ts';

/** What stands in the way: the field to go to, and one sentence that names it and what it may be. */
export type SheetProblem = {
  readonly field: string;
  /** in English */
  readonly message: string;
  readonly told: Told;
};

/** Longest text of each kind, characters, as the record takes it. */
export const LONGEST = { place: 120, material: 120, note: 500, condition: 200 } as const;

/** Ends the reading of a sheet at its first problem. Never leaves this folder. */
export class Refused extends Error {
  readonly problem: SheetProblem;
  constructor(field: string, told: Told) {
    super(inEnglish(told));
    this.problem = { field, message: this.message, told };
  }
}

export const refuse = (field: string, key: ProblemWord, put: Told['put'] = {}): never => {
  throw new Refused(field, tell(key, put));
};

export function takeText(field: 'place' | 'material', text: string): string {
  const name = `name.${field}`;
  const most = LONGEST[field];
  const tidy = text.trim();
  if (tidy === '') return refuse(field, 'text.missing', { name, most });
  if (tidy.length > most) return refuse(field, 'text.long', { name, most });
  return tidy;
}

export function takeNote(field: string, name: ProblemWord, text: string): string | undefined {
  const tidy = text.trim();
  if (tidy.length > LONGEST.note) refuse(field, 'text.long', { name, most: LONGEST.note });
  return tidy === '' ? undefined : tidy;
}

function takeLength(
  field: string,
  name: string,
  typed: TypedField,
  range: readonly [number, number],
): number {
  const read = readLength(typed.text, typed.unit);
  if (!read.ok) return refuse(field, read.told.key, { ...read.told.put, name });
  const { mm, unit } = read.length;
  if (mm < range[0] || mm > range[1]) {
    const { key, put } = tellRange(range, unit, name);
    return refuse(field, key, put);
  }
  return mm;
}

/** Millimetres to a thousandth of a micron: below that only the noise of binary fractions is left. */
const tidyNumber = (value: number): number => Number(value.toFixed(6));

export function takeBlade(draft: Draft): BladeSeen {
  const { blade } = draft;
  const diameter = takeLength('blade.diameter', 'name.blade.diameter', blade.diameter, [50, 2000]);
  const kerf = takeLength('blade.kerf', 'name.blade.kerf', blade.kerf, [0.5, 20]);
  const plate = takeLength('blade.plate', 'name.blade.plate', blade.plate, [0.5, 12]);
  if (plate > kerf) {
    refuse('blade.plate', 'blade.plate', { kerf: tidyNumber(kerf) });
  }
  const teeth = Number(blade.teeth.trim());
  if (!/^\d+$/.test(blade.teeth.trim()) || teeth < 2 || teeth > 200) {
    refuse('blade.teeth', 'blade.teeth');
  }
  return {
    diameter: tidyNumber(diameter),
    kerf: tidyNumber(kerf),
    plate: tidyNumber(plate),
    teeth,
  };
}

export type Instruments = Readonly<Record<InstrumentId, Instrument>>;

/** One reading, or null when it was left empty and may be. */
export function takeReading(
  draft: Draft,
  setting: UnitSetting,
  instruments: Instruments,
  isNeeded: (id: string) => boolean,
): Reading | null {
  const field = `reading.${setting.id}`;
  const typed = readingOf(draft, setting, 'mm');
  if (typed.text.trim() === '' && !isNeeded(setting.id)) return null;
  const name = `"${setting.ask}"`;
  const mm = takeLength(field, name, typed, setting.range);
  const instrument = instruments[typed.instrument];
  if (Math.abs(mm) > instrument.longest) {
    return refuse(field, 'instrument.short', {
      name,
      instrument: `instrument.${instrument.id}`,
      longest: instrument.longest,
    });
  }
  const read = readLength(typed.text, typed.unit);
  const unit = read.ok ? read.length.unit : typed.unit;
  return {
    setting: setting.id,
    value: tidyNumber(unit === 'inch' ? mmToInches(mm) : mm),
    unit,
    instrument: typed.instrument,
  };
}

/** The blade as far as it has been described, or null while a field of it is missing or wrong. */
export const readBladeOf = (draft: Draft): BladeSeen | null => attempt(() => takeBlade(draft));

/** The readings that can be used as they stand; empty and wrong ones are left out. */
export const readingsOf = (
  draft: Draft,
  settings: readonly UnitSetting[],
  instruments: Instruments,
): Reading[] =>
  settings.flatMap((setting) => {
    const reading = attempt(() => takeReading(draft, setting, instruments, () => false));
    return reading === null ? [] : [reading];
  });

/** What is wrong with one reading as typed, or null: an empty one is not wrong yet. */
export function problemWithReading(
  draft: Draft,
  setting: UnitSetting,
  instruments: Instruments,
): SheetProblem | null {
  try {
    takeReading(draft, setting, instruments, () => false);
    return null;
  } catch (error) {
    if (error instanceof Refused) return error.problem;
    throw error;
  }
}

function attempt<Value>(take: () => Value): Value | null {
  try {
    return take();
  } catch (error) {
    if (error instanceof Refused) return null;
    throw error;
  }
}
