import type { Unit } from '../../../competence/index.ts';
import {
  type Blocker,
  checkDraft,
  type Draft,
  type DraftContext,
  dayOf,
  draftOfUnit,
  findBlockers,
  lastDayAllowed,
  type PracticalDraft,
  readBladeOf,
  readingsOf,
  type Settled,
  type Sheet,
  stoppedIn,
  tell,
  touchedUnits,
} from '../../../competence/sheet/index.ts';
import { say, sayAsks, sayProblem } from '../say.ts';
import { judgeUnit, nameLimit } from './judge-unit.ts';
import type { Place } from './place.ts';

/** A unit ready to be signed: the checked sheet, and what its readings came to. */
export type ReadyUnit = {
  readonly unit: Unit;
  readonly sheet: Sheet;
  readonly settled: readonly Settled[];
};

/** What stands in the way: the unit and field to go to, null for what is asked once, and one sentence. */
export type PracticalProblem = {
  readonly unit: string | null;
  readonly field: string;
  readonly message: string;
};

export type CheckedPractical =
  | { readonly ok: true; readonly units: readonly ReadyUnit[] }
  | { readonly ok: false; readonly problem: PracticalProblem };

/** The day by the trainer's own calendar. */
export function localToday(): string {
  const now = new Date();
  return dayOf(new Date(now.getTime() - now.getTimezoneOffset() * 60_000).toISOString());
}

export const contextOf = (unit: Unit, place: Place, today: string): DraftContext => ({
  subject: { person: place.who.person, bench: place.bench.id, work: place.work, unit: unit.id },
  unit,
  today,
  firstDay: dayOf(new Date().toISOString()),
  lastDayOf: (observed) => lastDayAllowed(observed, place.interval),
  instruments: place.instruments,
  blade: place.blade,
});

/** What is said of a reading, in the language of the page; what is signed of it stays as it is. */
const sayHere = (settled: Settled): Settled => ({
  ...settled,
  title: nameLimit(settled),
  asks: sayAsks(settled.asks),
});

/** Everything that stands in the way of signing off one unit; none means the trainer may. */
export function blockersOf(draft: PracticalDraft, unit: Unit, place: Place): Blocker[] {
  const stopped = stoppedIn(draft);
  if (stopped !== null && stopped !== unit.id)
    return [{ field: 'stop-title', told: tell('blocker.stopped') }];
  const own = draftOfUnit(draft, unit.id);
  return findBlockers({
    unit,
    answerOf: (id) => own.criteria[id]?.result ?? null,
    read: readingsOf(own, unit.settings, place.instruments).map(({ setting }) => setting),
    stops: own.stops,
    settled: judgeUnit(own, unit, place).settled.map(sayHere),
    diameter: readBladeOf(own)?.diameter ?? null,
    largestBlade: place.bench.file.arbor.largestBlade,
  });
}

/** Fields asked once for the whole practical: they are on the first step, or on the last. */
const SHARED_FIELD = /^(observedAt|place|material|blade\.|validUntil|conditions)/;

const refuse = (unit: string | null, field: string, message: string): CheckedPractical => ({
  ok: false,
  problem: { unit, field, message },
});

/** Once the work was stopped, no unit of the practical is signed off. */
const settleDecision = (draft: PracticalDraft, unit: Unit): Draft => {
  const own = draftOfUnit(draft, unit.id);
  return stoppedIn(draft) === null ? own : { ...own, decision: 'not-yet' };
};

/** The units that were touched, checked one by one, or the first thing that stands in the way. */
export function checkPractical(
  draft: PracticalDraft,
  place: Place,
  today: string,
): CheckedPractical {
  const units = touchedUnits(draft, place.units);
  if (units.length === 0) return refuse(null, 'units', say('nothing-touched'));
  const ready: ReadyUnit[] = [];
  for (const unit of units) {
    const own = settleDecision(draft, unit);
    if (own.decision === null) {
      return refuse(null, `decision.${unit.id}`, say('no-decision', { unit: unit.title }));
    }
    const checked = checkDraft(own, contextOf(unit, place, today));
    if (!checked.ok) {
      const { field, told } = checked.problem;
      return refuse(SHARED_FIELD.test(field) ? null : unit.id, field, sayProblem(told));
    }
    const { settled, state } = judgeUnit(own, unit, place);
    if (state === 'no-blade' && checked.sheet.readings.length > 0) {
      return refuse(null, 'blade.kerf', say('verdict.no-blade'));
    }
    const [first] = blockersOf(draft, unit, place);
    if (checked.sheet.decision === 'signed-off' && first !== undefined) {
      const why = sayProblem(first.told);
      return refuse(
        null,
        `decision.${unit.id}`,
        say('unit-must-be-not-yet', { unit: unit.title, why }),
      );
    }
    ready.push({ unit, sheet: checked.sheet, settled });
  }
  return { ok: true, units: ready };
}
