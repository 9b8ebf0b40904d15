import { addDays, type Day, isDay } from '../dates.ts';
import type { Unit } from '../unit-schema.ts';
import type { Draft, SheetSubject } from './draft.ts';
import type { BladeSeen, Sheet } from './sheet.ts';
import {
  type Instruments,
  LONGEST,
  Refused,
  refuse,
  type SheetProblem,
  takeBlade,
  takeNote,
  takeReading,
  takeText,
} from './take-parts.ts';

export type CheckedDraft =
  | { readonly ok: true; readonly sheet: Sheet }
  | { readonly ok: false; readonly problem: SheetProblem };

export type DraftContext = {
  readonly subject: SheetSubject;
  /** the unit with only what this work asks for */
  readonly unit: Unit;
  readonly instruments: Instruments;
  /** the blade on record: stands in on a "not yet" where none was measured */
  readonly blade: BladeSeen;
  /** by the trainer's own calendar: no practical lies in the future */
  readonly today: Day;
  /** first day of a sign-off: the day of signing in UTC, as the log counts */
  readonly firstDay: Day;
  /** last day a sign-off may run to, by the day the practical was seen */
  readonly lastDayOf: (observed: Day) => Day;
};

/** A practical is signed within this many days of being seen, or seen again. */
export const LONGEST_WAIT_DAYS = 31;

const MOST_CONDITIONS = 12;

function takeCriteria(draft: Draft, unit: Unit, isComplete: boolean): Sheet['criteria'] {
  return unit.criteria.map(({ id, text }) => {
    const answer = draft.criteria[id];
    const field = `criterion.${id}`;
    const result = answer?.result ?? (isComplete ? null : 'not-seen');
    if (result === null) return refuse(field, 'criterion', { name: `"${text}"` });
    const note = takeNote(field, 'name.note', answer?.note ?? '');
    return note === undefined ? { id, result } : { id, result, note };
  });
}

function takeConditions(text: string): string[] {
  const lines = text
    .split('\n')
    .map((line) => line.trim())
    .filter((line) => line !== '');
  if (lines.length >= MOST_CONDITIONS) {
    refuse('conditions', 'conditions.lines', { most: MOST_CONDITIONS - 1 });
  }
  if (lines.some((line) => line.length > LONGEST.condition)) {
    refuse('conditions', 'conditions.long', { most: LONGEST.condition });
  }
  return lines;
}

function takeObserved(text: string, today: Day): Day {
  const earliest = addDays(today, -LONGEST_WAIT_DAYS);
  if (!isDay(text) || text > today || text < earliest) {
    refuse('observedAt', 'observedAt', { from: earliest, until: today });
  }
  return text;
}

function takeUntil(text: string, from: Day, last: Day): Day {
  if (!isDay(text) || text < from || text > last) {
    refuse('validUntil', 'validUntil', { from, until: last });
  }
  return text;
}

/**
 * Blade and stock. A practical that was stopped may have ended before either was looked at: then the
 * blade on record stands in, and the sheet says so.
 */
function takeSeen(draft: Draft, { blade: onRecord }: DraftContext, isComplete: boolean) {
  const { kerf, plate } = draft.blade;
  const noBlade = !isComplete && kerf.text.trim() === '' && plate.text.trim() === '';
  const noStock = !isComplete && draft.material.trim() === '';
  return {
    blade: noBlade ? onRecord : takeBlade(draft),
    material: noStock ? 'not noted' : takeText('material', draft.material),
    remarks: noBlade ? ['Blade as it stands in the register, not measured.'] : [],
  };
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
    const place = takeText('place', draft.place);
    const { blade, material, remarks } = takeSeen(draft, context, isComplete);
    const criteria = takeCriteria(draft, unit, isComplete);
    const needed = new Set(unit.settings.filter((one) => one.needed).map(({ id }) => id));
    const readings = unit.settings
      .map((setting) =>
        takeReading(draft, setting, context.instruments, (id) => isComplete && needed.has(id)),
      )
      .filter((reading) => reading !== null);
    const stopNote = takeNote('stopNote', 'name.stopNote', draft.stopNote);
    const conditions = [...takeConditions(draft.conditions), ...remarks];
    const decision = stopped ? 'not-yet' : draft.decision;
    if (decision === null) return refuse('decision', 'decision');
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
