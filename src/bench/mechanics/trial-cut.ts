import { halfChord } from '../../geometry/index.ts';
import { bladeFrame } from '../measures/index.ts';
import type { Bench } from '../schema/index.ts';
import { type Binding, bindingOf } from './binding.ts';
import { ASSUMED_CUT, type Cut, type CutAssumptions, cutOfBench } from './cut-of-bench.ts';
import { type Closing, closingOf } from './kerf-closing.ts';
import { supportOf } from './support.ts';
import { type Throw, throwOf } from './throw-estimate.ts';
import type { Strip } from './throw-strip.ts';

/** `stopped`: stop was pressed on the way, before anything else ended the cut. */
export type CutOutcome = 'smooth' | 'burning' | 'binding' | 'thrown' | 'stalled' | 'stopped';

export type MomentKind =
  | 'enters'
  | 'burns'
  | 'stalls'
  | 'reaches-rear'
  | 'grips'
  | 'lifts'
  | 'traps'
  | 'thrown'
  | 'tips'
  | 'leaves';

export type CutMoment = {
  /** s from the start of the feed */
  readonly at: number;
  /** mm, x of the leading end of the stock */
  readonly lead: number;
  readonly kind: MomentKind;
};

export type TrialCut = {
  readonly outcome: CutOutcome;
  readonly moments: readonly CutMoment[];
  /** s from the start of the feed until there is nothing more to see */
  readonly lasts: number;
  readonly thrown: null | {
    readonly at: number;
    readonly lead: number;
    /** m/s */
    readonly speed: number;
    readonly strip: Strip;
  };
  /** what the engine worked from, to be told beside the outcome */
  readonly cut: Cut;
  readonly closing: Closing;
  readonly binding: Binding;
  /** the throw in full; null when the piece is not thrown */
  readonly estimate: Throw | null;
  readonly assumed: TrialAssumptions;
};

export type TrialAssumptions = CutAssumptions & {
  /** share of its rating at which a motor stalls: about twice, for an induction motor (from memory) */
  readonly stallsAt: number;
};

export const ASSUMED_TRIAL: TrialAssumptions = { ...ASSUMED_CUT, stallsAt: 2 };

/** mm before the front teeth at which the leading end starts. */
const START_BEFORE = 150;
/** mm of its way that a thrown piece is followed. It does not end there. */
export const FOLLOWED = 4000;

/** A thing that happens once the leading end is at `lead`; `ends` when the cut goes no further. */
type Event = { readonly lead: number; readonly kind: MomentKind; readonly ends?: CutOutcome };

const startOf = (bench: Bench): number => -bladeFrame(bench).halfAtTable - START_BEFORE;

/** mm/s */
const feedSpeed = ({ job }: Bench): number => (job.fed * 1000) / 60;

/**
 * The job fed through this bench as it stands: what happens, when, and where the leading end is
 * then. Deterministic, and an estimate throughout.
 *
 * Assumed, beside what `cutOfBench`, `bindingOf`, `throwOf` and `closingOf` assume: the feed is
 * steady; the kerf closes in proportion to its length, and fully once the whole piece is cut; work
 * that grips the plate is thrown where no knife stands behind the teeth, and sticks where one does;
 * fingers are not counted on. A piece cut off between blade and fence used as a stop is trapped.
 * @returns null where the job is not fed
 */
export function trialCut(bench: Bench, assumed: TrialAssumptions = ASSUMED_TRIAL): TrialCut | null {
  const cut = cutOfBench(bench, assumed);
  if (cut === null) return null;
  const closing = closingOf(bench);
  const binding = bindingOf(guided(bench), { closing: closing.full });
  const events = eventsOf(bench, { cut, closing, binding, assumed });
  const start = startOf(bench);
  const speed = feedSpeed(bench);
  const reached: CutMoment[] = [];
  const rest = { cut, closing, binding, assumed };
  for (const { lead, kind, ends } of events) {
    const at = (lead - start) / speed;
    reached.push({ at, lead, kind });
    if (ends === 'thrown') return { ...throwFrom(bench, reached, at, binding), ...rest };
    if (ends === 'binding' || ends === 'stalled') {
      return { outcome: ends, moments: reached, lasts: at, thrown: null, estimate: null, ...rest };
    }
  }
  const last = reached[reached.length - 1] as CutMoment;
  const outcome = reached.some(({ kind }) => kind === 'burns') ? 'burning' : 'smooth';
  return { outcome, moments: reached, lasts: last.at, thrown: null, estimate: null, ...rest };
}

/** Work pushed with a mitre gauge runs along no fence, so the fence steers it nowhere. */
function guided(bench: Bench): Bench {
  const isFree = bench.job.cut === 'crosscut' && bench.job.stop !== 'fence';
  return isFree ? { ...bench, fence: { ...bench.fence, toe: 0 } } : bench;
}

type Worked = Pick<TrialCut, 'cut' | 'closing' | 'binding' | 'assumed'>;

/** All that would happen, in the order of the feed; what comes after an end never does. */
function eventsOf(bench: Bench, { cut, closing, binding, assumed }: Worked): Event[] {
  const { blade, knife, job, people, table } = bench;
  const { tipRadius, depth, stock, halfAtTable } = bladeFrame(bench);
  const { length } = job.stock;
  const through = Math.min(stock, tipRadius - depth);
  /** the whole thickness is in the cut */
  const engaged = -halfChord(tipRadius, depth + through);
  const events: Event[] = [{ lead: -halfAtTable, kind: 'enters' }];
  if (cut.rubs || blade.mounted === 'backwards') events.push({ lead: engaged, kind: 'burns' });
  if ((cut.powerShare ?? 0) > assumed.stallsAt) {
    events.push({ lead: engaged, kind: 'stalls', ends: 'stalled' });
  }
  events.push({ lead: halfAtTable, kind: 'reaches-rear' });
  if (binding.lifts) events.push({ lead: halfAtTable, kind: 'lifts', ends: 'thrown' });
  if (binding.grips) {
    const kerf = ((blade.kerf - blade.plate) / closing.full) * length;
    const lead = Math.max(halfAtTable, kerf - halfAtTable);
    events.push({ lead, kind: 'grips', ends: knife === null ? 'thrown' : 'binding' });
  }
  if (job.cut === 'crosscut' && job.stop === 'fence') {
    const severed = Math.max(halfAtTable, length - halfAtTable);
    events.push({ lead: severed, kind: 'traps', ends: 'thrown' });
  }
  if (supportOf(bench).needsSupport && people.takeOff === null) {
    // where the middle is past the edge before the cut begins, it tips as soon as it is let go
    events.push({ lead: Math.max(-halfAtTable, table.outfeed + length / 2), kind: 'tips' });
  }
  events.push({ lead: halfAtTable + length, kind: 'leaves' });
  // a stable sort: what stands first above comes first where two fall together
  return events.sort((one, other) => one.lead - other.lead);
}

/** The rear teeth take hold, and lift the piece through its own thickness at the speed of the rim. */
function throwFrom(
  bench: Bench,
  before: readonly CutMoment[],
  takes: number,
  binding: Binding,
): Pick<TrialCut, 'outcome' | 'moments' | 'lasts' | 'thrown' | 'estimate'> {
  const estimate = throwOf(bench, binding);
  const { speed, strip } = estimate;
  const rim = (Math.PI * bench.blade.diameter * bench.arbor.speed) / 60_000;
  const at = takes + bench.job.stock.thickness / 1000 / rim;
  const lead = startOf(bench) + feedSpeed(bench) * at;
  return {
    outcome: 'thrown',
    moments: [...before, { at, lead, kind: 'thrown' }],
    lasts: at + FOLLOWED / 1000 / speed,
    thrown: { at, lead, speed, strip },
    estimate,
  };
}

/** The same cut, with stop pressed `s` seconds into the feed and the work held where it was. */
export function cutShort(cut: TrialCut, s: number | null): TrialCut {
  const isOver = s === null || s >= (cut.thrown?.at ?? cut.lasts);
  if (isOver) return cut;
  const moments = cut.moments.filter(({ at }) => at <= s);
  return { ...cut, outcome: 'stopped', moments, lasts: s, thrown: null, estimate: null };
}

/** mm, x of the leading end `s` seconds from the start of the feed, a thrown piece on its way included. */
export function leadAt(cut: TrialCut, bench: Bench, s: number): number {
  const { thrown, lasts } = cut;
  const till = Math.min(Math.max(0, s), lasts);
  if (thrown !== null && till > thrown.at) {
    return thrown.lead - thrown.speed * 1000 * (till - thrown.at);
  }
  return startOf(bench) + feedSpeed(bench) * till;
}
