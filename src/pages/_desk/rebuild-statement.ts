import type { Person, Viewer } from '../../accounts/index.ts';
import {
  addDays,
  DEFAULT_INTERVAL,
  dayOf,
  lastDayAllowed,
  type Settled,
  type Sheet,
  settleReadings,
  type Unit,
  unitToWatch,
} from '../../competence/index.ts';
import { blockersOf, LONGEST_WAIT_DAYS, writeStatement } from '../../competence/sheet/index.ts';
import { canonicalText, type Statement, withMeaning } from '../../records/index.ts';
import { type Done, refused, refusedFor } from './refused.ts';
import type { Shop } from './workshop.ts';

/** The machine, unit and limits a sheet speaks of, found in the register and the content. */
export type SheetParts = {
  readonly who: Person;
  readonly bench: Shop['benches'][number];
  readonly unit: Unit;
  readonly set: NonNullable<ReturnType<Shop['sets']['get']>>;
  readonly practice: NonNullable<ReturnType<Shop['sets']['get']>>;
};

/**
 * Finds what a sheet names, or says which of it there is not.
 * @param who the person it names; null where the organisation has no such person
 */
export function findParts(
  workshop: Shop,
  named: Pick<Sheet, 'person' | 'bench' | 'work' | 'unit'>,
  who: Person | null,
): Done<SheetParts> {
  if (who === null) return refusedFor(422, 'person', 'desk.part.person');
  const bench = workshop.benches.find(({ id }) => id === named.bench);
  if (bench === undefined) return refusedFor(422, 'bench', 'desk.part.bench');
  const { asset } = bench;
  if (!bench.work.includes(named.work)) {
    return refusedFor(422, 'work', 'desk.part.work', { asset, works: bench.work.join(', ') });
  }
  const set = workshop.sets.get(bench.limits);
  const practice = workshop.sets.get('practice');
  if (set === undefined || practice === undefined) {
    return refusedFor(422, 'bench', 'desk.part.limits', { asset, set: bench.limits });
  }
  const whole = workshop.units.find(({ id }) => id === named.unit);
  if (whole === undefined || !whole.work.includes(named.work)) {
    return refusedFor(422, 'unit', 'desk.part.unit');
  }
  const unit = unitToWatch(whole, named.work, [set, practice]);
  return { ok: true, value: { who, bench, unit, set, practice } };
}

export const settle = (
  sheet: Pick<Sheet, 'readings' | 'blade' | 'work'>,
  parts: SheetParts,
): Settled[] =>
  settleReadings(sheet, parts.unit, {
    bench: parts.bench.file,
    set: parts.set,
    practice: parts.practice,
  });

function checkAnswers(sheet: Sheet, settled: readonly Settled[], { unit, bench }: SheetParts) {
  const asked = unit.criteria.map(({ id }) => id);
  const answered = sheet.criteria.map(({ id }) => id);
  if (asked.join() !== answered.join()) {
    return refused(
      422,
      'criteria',
      'criteria must answer each criterion of the unit, once and in its order.',
    );
  }
  const strange = sheet.readings.find(
    ({ setting }) => !unit.settings.some(({ id }) => id === setting),
  );
  if (strange !== undefined) {
    return refused(
      422,
      'readings',
      `readings must not hold ${strange.setting}, which the unit does not ask for.`,
    );
  }
  if (sheet.stops.some((stop) => !unit.stops.some(({ id }) => id === stop))) {
    return refused(422, 'stops', 'stops must be errors that the unit names.');
  }
  const shown = (sheet.photos ?? []).find(
    ({ criterion }) => criterion !== null && !asked.includes(criterion),
  );
  if (shown !== undefined) {
    return refused(
      422,
      'photos',
      `photos must be of a criterion of the unit or of the machine, not of ${shown.criterion}.`,
    );
  }
  if (sheet.decision === 'not-yet') return null;
  const answers = new Map(sheet.criteria.map(({ id, result }) => [id, result]));
  const [first] = blockersOf({
    unit,
    answerOf: (id) => answers.get(id) ?? null,
    read: sheet.readings.map(({ setting }) => setting),
    stops: sheet.stops,
    settled,
    diameter: sheet.blade.diameter,
    largestBlade: bench.file.arbor.largestBlade,
  });
  return first === undefined ? null : refusedFor(422, 'decision', 'desk.decision', { why: first });
}

/** The days of a sheet against the moment it was signed and the moment it came in. */
function checkDays(
  sheet: Sheet,
  given: { readonly signedAt: string; readonly received: Date; readonly months: number },
) {
  const { signedAt, received, months } = given;
  const { decision, observedAt, validFrom, validUntil } = sheet;
  const today = dayOf(received.toISOString());
  if (Date.parse(signedAt) > received.getTime() + 86_400_000) {
    return refusedFor(422, 'at', 'desk.clock-ahead');
  }
  // one day to either side, since a trainer's own calendar may be ahead of or behind UTC
  const signed = dayOf(signedAt);
  if (observedAt > addDays(today, 1) || observedAt < addDays(signed, -LONGEST_WAIT_DAYS - 1)) {
    return refusedFor(422, 'observedAt', 'desk.observed', { days: LONGEST_WAIT_DAYS });
  }
  if (decision === 'not-yet') return null;
  const first = [observedAt, signed].sort()[1];
  if (validFrom !== first) {
    return refusedFor(422, 'validFrom', 'desk.valid-from', { first: first ?? signed });
  }
  const last = lastDayAllowed(observedAt, { ...DEFAULT_INTERVAL, months });
  if (validUntil === null || validUntil < first || validUntil > last) {
    return refusedFor(422, 'validUntil', 'desk.valid-until', { first, last });
  }
  return null;
}

/** The statement as the site itself writes it from the checked sheet: nothing of it is taken on trust. */
export function rebuildStatement(
  sheet: Sheet,
  parts: SheetParts,
  given: {
    readonly signoff: string;
    readonly viewer: Viewer;
    readonly trainer: Person;
    readonly signedAt: string;
    readonly received: Date;
    /** calendar months a sign-off may stand */
    readonly months: number;
  },
): Done<Statement> {
  const settled = settle(sheet, parts);
  const fault = checkAnswers(sheet, settled, parts) ?? checkDays(sheet, given);
  if (fault !== null) return fault;
  const { who, bench, unit, set } = parts;
  const unsaid = writeStatement(sheet, settled, unit, {
    signoff: given.signoff,
    org: given.viewer.org,
    who: { person: who.person, nameHash: who.nameHash },
    trainer: { person: given.trainer.person, nameHash: given.trainer.nameHash },
    bench: { id: bench.id, asset: bench.asset, guardKind: bench.file.guard?.kind ?? 'none' },
    limits: { set: set.id, version: String(set.version) },
  });
  return { ok: true, value: withMeaning(unsaid) };
}

type Step = string | number;
const isGroup = (value: unknown): value is Record<string, unknown> =>
  typeof value === 'object' && value !== null;

/** The first field in which two statements differ, as a path, or null. */
export function findDifference(a: unknown, b: unknown, path: readonly Step[] = []): string | null {
  if (isGroup(a) && isGroup(b)) {
    for (const key of [...new Set([...Object.keys(a), ...Object.keys(b)])].sort()) {
      const found = findDifference(a[key], b[key], [...path, key]);
      if (found !== null) return found;
    }
    return null;
  }
  if (a === undefined || b === undefined) return a === b ? null : path.join('.');
  return canonicalText(a) === canonicalText(b) ? null : path.join('.');
}
