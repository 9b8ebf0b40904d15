import type { InstrumentId } from '../../bench/index.ts';
import type { LengthUnit } from '../../geometry/index.ts';
import type { Day } from '../dates.ts';
import type { Unit, UnitSetting } from '../unit-schema.ts';
import type { Work } from '../work.ts';

export type Seen = 'yes' | 'no' | 'not-seen';
export type Decision = 'signed-off' | 'not-yet';

/** A length field exactly as it stands in the sheet. */
export type TypedField = { readonly text: string; readonly unit: LengthUnit };

/** What a sheet is about: chosen before it is opened, and the key it is kept under. */
export type SheetSubject = {
  readonly person: string;
  readonly bench: string;
  readonly work: Work;
  readonly unit: string;
};

/** A practical sheet as typed, not yet checked: this is what survives a flat battery. */
export type Draft = {
  readonly observedAt: string;
  readonly place: string;
  readonly material: string;
  readonly blade: {
    readonly diameter: TypedField;
    readonly kerf: TypedField;
    readonly plate: TypedField;
    readonly teeth: string;
  };
  /** by criterion id; a criterion not here has not been answered */
  readonly criteria: Readonly<
    Record<string, { readonly result: Seen | null; readonly note: string }>
  >;
  /** by setting id */
  readonly readings: Readonly<Record<string, TypedField & { readonly instrument: InstrumentId }>>;
  /** ids of stop-the-work errors seen */
  readonly stops: readonly string[];
  readonly stopNote: string;
  /** one sentence to a line */
  readonly conditions: string;
  readonly decision: Decision | null;
  readonly validUntil: string;
};

/** The blade as the register has it: what the trainer starts from. */
export type RegisteredBlade = { readonly diameter: number; readonly teeth: number };

/**
 * An empty sheet. Kerf and plate are left to be measured, since the knife is judged by them; diameter
 * and teeth, which are marked on a blade, come from the register.
 */
export function emptyDraft(start: {
  readonly today: Day;
  readonly place: string;
  readonly blade: RegisteredBlade;
  readonly unit: LengthUnit;
  readonly validUntil: Day;
}): Draft {
  const blank: TypedField = { text: '', unit: start.unit };
  return {
    observedAt: start.today,
    place: start.place,
    material: '',
    blade: {
      diameter: { text: String(start.blade.diameter), unit: 'mm' },
      kerf: blank,
      plate: blank,
      teeth: String(start.blade.teeth),
    },
    criteria: {},
    readings: {},
    stops: [],
    stopNote: '',
    conditions: '',
    decision: null,
    validUntil: start.validUntil,
  };
}

const belongs =
  (work: Work) =>
  (item: { readonly work?: readonly Work[] | undefined }): boolean =>
    item.work === undefined || item.work.includes(work);

/** The unit with only what this kind of work asks for. */
export const unitFor = (unit: Unit, work: Work): Unit => ({
  ...unit,
  criteria: unit.criteria.filter(belongs(work)),
  settings: unit.settings.filter(belongs(work)),
  stops: unit.stops.filter(belongs(work)),
});

/** The reading of one setting as it stands, or a fresh one with the instrument that fits best. */
export function readingOf(
  draft: Draft,
  setting: UnitSetting,
  unit: LengthUnit,
): TypedField & { readonly instrument: InstrumentId } {
  const instrument = setting.instruments[0] ?? 'rule';
  return draft.readings[setting.id] ?? { text: '', unit, instrument };
}
