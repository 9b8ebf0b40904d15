import type { Unit } from '../unit-schema.ts';
import { type Draft, emptyDraft, unitFor } from './draft.ts';
import type { SignedTogether } from './sheet.ts';

/** What a sheet holds of one unit; the rest of a draft is asked once for the whole practical. */
type OwnFields = 'criteria' | 'readings' | 'stops' | 'stopNote' | 'decision';
export type UnitDraft = Pick<Draft, OwnFields>;
type SharedFields = Exclude<keyof Draft, OwnFields>;

/** A photo of the machine, and what it shows. */
export type DraftPhoto = {
  readonly digest: string;
  readonly unit: string;
  readonly criterion: string | null;
};

/** What the person watched said to the result; null until they were asked. */
export type Heard = {
  readonly answer: SignedTogether['acknowledged']['answer'] | null;
  readonly words: string;
};

/** One practical at the machine as typed: one person, bench, kind of work and day, any number of units. */
export type PracticalDraft = {
  /** id of the practical, UUID version 7: signed with every unit of it */
  readonly practical: string;
  readonly shared: Pick<Draft, SharedFields>;
  /** by unit id; a unit not here has not been touched, and is no part of this practical */
  readonly units: Readonly<Record<string, UnitDraft>>;
  readonly photos: readonly DraftPhoto[];
  readonly heard: Heard;
};

/** Nobody has been asked yet. */
export const NOT_HEARD: Heard = { answer: null, words: '' };

const NOTHING_SEEN: UnitDraft = {
  criteria: {},
  readings: {},
  stops: [],
  stopNote: '',
  decision: null,
};

/** @param practical a fresh UUID of version 7 */
export function emptyPractical(
  practical: string,
  start: Parameters<typeof emptyDraft>[0],
): PracticalDraft {
  const { criteria, readings, stops, stopNote, decision, ...shared } = emptyDraft(start);
  return { practical, shared, units: {}, photos: [], heard: NOT_HEARD };
}

/** One unit of the practical as a sheet of its own. */
export const draftOfUnit = ({ shared, units }: PracticalDraft, unit: string): Draft => ({
  ...shared,
  ...(units[unit] ?? NOTHING_SEEN),
});

const OWN: readonly OwnFields[] = ['criteria', 'readings', 'stops', 'stopNote', 'decision'];
const isOwn = (field: string): boolean => OWN.some((one) => one === field);

/** The practical after a change to one of its units; what is asked once changes for all of them. */
export function changeUnit(
  draft: PracticalDraft,
  unit: string,
  part: Partial<Draft>,
): PracticalDraft {
  const fields = Object.entries(part);
  const own = Object.fromEntries(fields.filter(([field]) => isOwn(field)));
  const shared = Object.fromEntries(fields.filter(([field]) => !isOwn(field)));
  const units =
    Object.keys(own).length === 0
      ? draft.units
      : { ...draft.units, [unit]: { ...(draft.units[unit] ?? NOTHING_SEEN), ...own } };
  return { ...draft, shared: { ...draft.shared, ...shared }, units };
}

/** The practical without one of its units, and without the photos of it. */
export function leaveOut(draft: PracticalDraft, unit: string): PracticalDraft {
  const { [unit]: _, ...units } = draft.units;
  return { ...draft, units, photos: draft.photos.filter((photo) => photo.unit !== unit) };
}

function holdsAnything({ criteria, readings, stops, stopNote, decision }: UnitDraft): boolean {
  return (
    stops.length > 0 ||
    stopNote.trim() !== '' ||
    decision !== null ||
    Object.values(readings).some(({ text }) => text.trim() !== '') ||
    Object.values(criteria).some(({ result, note }) => result !== null || note.trim() !== '')
  );
}

/** Whether anything was entered for a unit: then it is part of this practical. */
export const isTouched = (draft: PracticalDraft, unit: string): boolean => {
  const own = draft.units[unit];
  return (
    (own !== undefined && holdsAnything(own)) || draft.photos.some((photo) => photo.unit === unit)
  );
};

/** The units this practical is about, of those given and in their order. */
export const touchedUnits = (draft: PracticalDraft, units: readonly Unit[]): Unit[] =>
  units.filter(({ id }) => isTouched(draft, id));

/** The unit in which an error stopped the work, which ends the whole practical; null while none has. */
export const stoppedIn = (draft: PracticalDraft): string | null =>
  Object.entries(draft.units).find(([, { stops }]) => stops.length > 0)?.[0] ?? null;

/** The units a kind of work needs, each with only what this work asks for. */
export const unitsFor = (units: readonly Unit[], work: Unit['work'][number]): Unit[] =>
  units
    .filter((unit) => unit.work.includes(work))
    .map((unit) => unitFor(unit, work))
    .sort((a, b) => a.number - b.number);

/** How much of one unit has been seen and measured. */
export function progressOf(draft: PracticalDraft, unit: Unit) {
  const own = draft.units[unit.id] ?? NOTHING_SEEN;
  const answered = unit.criteria.filter(({ id }) => own.criteria[id]?.result != null);
  const read = unit.settings.filter(({ id }) => (own.readings[id]?.text ?? '').trim() !== '');
  return {
    seen: answered.length,
    criteria: unit.criteria.length,
    read: read.length,
    settings: unit.settings.length,
  };
}

/** What the person said, as it is signed. @returns null while nobody asked them, or a reason is missing */
export function heardOf({ heard }: PracticalDraft): SignedTogether['acknowledged'] | null {
  const words = heard.words.trim();
  if (heard.answer === null || (heard.answer !== 'agrees' && words === '')) return null;
  return { answer: heard.answer, words: words === '' ? null : words.slice(0, 500) };
}

/** Photos of one unit as they are signed. */
export const photosOf = ({ photos }: PracticalDraft, unit: string): SignedTogether['photos'] =>
  photos
    .filter((photo) => photo.unit === unit)
    .map(({ digest, criterion }) => ({ digest, criterion }));

/** A sheet of one unit left by an earlier form of this page, taken into a practical. */
export function takeInDraft(draft: PracticalDraft, unit: string, old: Draft): PracticalDraft {
  const taken = changeUnit(draft, unit, old);
  const isEmpty = draft.shared.place === '' && draft.shared.material === '';
  return isEmpty ? taken : { ...taken, shared: draft.shared };
}

/** Most photos of one unit, as the record takes them. */
export const MOST_PHOTOS = 24;
