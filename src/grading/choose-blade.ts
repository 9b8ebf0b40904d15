import {
  ASSUMED_CUT,
  type Bench,
  type Cut,
  type CutAssumptions,
  cutOfBench,
  measureBench,
} from '../bench/index.ts';
import { atMost, TOLERANCE } from '../geometry/index.ts';
import {
  judge,
  type LimitSet,
  type Result,
  sayLimit,
  saySource,
  sayValue,
} from '../limits/index.ts';
import { fitKnife, mountBlade } from './mount-blade.ts';
import type { Rack, RackBlade, RackKnife } from './rack-schema.ts';
import { type Suiting, suitingOf } from './suit-blade.ts';

/** Why a blade or a knife is chosen or left; `against` rules it out. */
export type Reason = { readonly kind: 'for' | 'against' | 'note'; readonly says: string };

export type BladeChoice = {
  readonly blade: RackBlade;
  /** the knife that goes with it; null when the rack has none that fits */
  readonly knife: RackKnife | null;
  /** nothing speaks against this blade with this knife */
  readonly fits: boolean;
  /** 0 to 100, how well it suits the job; 0 when it does not fit */
  readonly score: number;
  readonly reasons: readonly Reason[];
  /** how it would cut; null when it cannot be mounted, or nothing is fed */
  readonly cut: Cut | null;
  /** the bench with blade and knife on it; null when it cannot be mounted */
  readonly bench: Bench | null;
};

/**
 * Every blade of a rack for the job on a bench, the best first, each with the knife that goes with
 * it and the reasons. What rules a blade out are the marks on it, what this bench can do, and the
 * limits in force; what ranks the rest is common practice and an assumed cutting force, and is said
 * to be. Deterministic: equal scores are ordered by name.
 */
export function chooseBlade({
  bench,
  rack,
  sets,
  assumed = ASSUMED_CUT,
}: {
  readonly bench: Bench;
  readonly rack: Rack;
  readonly sets: readonly LimitSet[];
  readonly assumed?: CutAssumptions;
}): BladeChoice[] {
  return rack.blades
    .map((blade) => weighBlade(blade, bench, rack, sets, assumed))
    .sort((a, b) => b.score - a.score || (a.blade.id < b.blade.id ? -1 : 1));
}

const against = (says: string): Reason => ({ kind: 'against', says });

/** One blade for the job on a bench, with the knife of the rack that goes with it and the reasons. */
export function weighBlade(
  blade: RackBlade,
  bench: Bench,
  rack: Rack,
  sets: readonly LimitSet[],
  assumed: CutAssumptions = ASSUMED_CUT,
): BladeChoice {
  const reasons: Reason[] = checkMarks(blade, bench);
  const mounted = mountBlade(bench, blade);
  if (mounted === null) {
    const says = `too small to clear ${bench.job.stock.thickness} mm stock on this bench`;
    return left(blade, [...reasons, against(says)]);
  }
  reasons.push(...failures(mounted, sets, 'blade.'));
  const matched = matchKnife(mounted, rack.knives, sets);
  const needsKnife = bench.job.cut !== 'rebate' && bench.job.cut !== 'groove';
  if (matched === null) {
    const says =
      'no knife in the rack is thicker than its plate, thinner than its kerf and fits its size';
    reasons.push(
      needsKnife ? against(says) : { kind: 'note', says: `${says}; this cut needs none` },
    );
  } else reasons.push({ kind: 'for', says: sayMatch(blade, matched.knife) });
  const cut = cutOfBench(mounted, assumed);
  const suiting = cut === null ? [] : suitingOf(mounted, cut);
  if (cut?.powerShare != null && !atMost(cut.powerShare, 1)) {
    const share = Math.round(100 * cut.powerShare);
    reasons.push(
      against(`wants about ${share} % of the motor at this feed (assumed cutting force)`),
    );
  }
  reasons.push(...suiting.map(({ says }): Reason => ({ kind: 'note', says })));
  const fits = reasons.every(({ kind }) => kind !== 'against');
  return {
    blade,
    knife: matched?.knife ?? null,
    fits,
    score: fits ? scoreOf(suiting) : 0,
    reasons,
    cut,
    bench: matched?.bench ?? mounted,
  };
}

const left = (blade: RackBlade, reasons: readonly Reason[]): BladeChoice => ({
  blade,
  knife: null,
  fits: false,
  score: 0,
  reasons,
  cut: null,
  bench: null,
});

/** What the marks on the blade and the plate on the bench say together. */
function checkMarks({ diameter, maxSpeed }: RackBlade, { arbor }: Bench): Reason[] {
  const reasons: Reason[] = [];
  if (!atMost(diameter, arbor.largestBlade)) {
    reasons.push(against(`larger than this bench is built for (${arbor.largestBlade} mm)`));
  }
  if (!atMost(arbor.speed, maxSpeed)) {
    reasons.push(against(`marked for ${maxSpeed} rpm, and this spindle turns at ${arbor.speed}`));
  } else {
    reasons.push({ kind: 'for', says: `marked for ${maxSpeed} rpm, over the ${arbor.speed} here` });
  }
  return reasons;
}

const failing = (bench: Bench, sets: readonly LimitSet[], measures: string): Result[] =>
  sets
    .flatMap((set) => judge(bench, measureBench(bench), set))
    .filter(
      ({ measure, verdict, grade }) =>
        measure.startsWith(measures) && verdict === 'outside' && grade === 'must',
    );

/** Limits in force on the blade that it would fail, each as a reason against it. */
function failures(bench: Bench, sets: readonly LimitSet[], measures: string): Reason[] {
  const limits = new Map(sets.flatMap((set) => set.limits.map((limit) => [limit.id, limit])));
  return failing(bench, sets, measures).map((result) => {
    const limit = limits.get(result.limit);
    const asked = limit === undefined ? '' : ` where ${sayLimit(limit, result, 'mm')} is asked`;
    const value = sayValue(result.value, result.unit, 'mm');
    return against(`${result.title}: ${value}${asked} (${saySource(result.source)})`);
  });
}

type Match = { readonly knife: RackKnife; readonly bench: Bench };

/**
 * The knife that goes with a mounted blade: thicker than the plate and thinner than the kerf, clear
 * of the teeth, and standing behind them as every limit in force asks. Of those, the one whose gap is
 * most even from the table up to the top; of equals, the one with most room on both sides.
 */
function matchKnife(
  mounted: Bench,
  knives: readonly RackKnife[],
  sets: readonly LimitSet[],
): Match | null {
  const { plate, kerf } = mounted.blade;
  const fitted = knives.flatMap((knife) => {
    const room = Math.min(knife.thickness - plate, kerf - knife.thickness);
    const { reasons, bench } = weighKnife(mounted, knife, sets);
    if (bench === null || reasons.some(({ kind }) => kind === 'against')) return [];
    const measures = measureBench(bench);
    const spread = Number(measures['knife.gapMax']) - Number(measures['knife.gapMin']);
    const uneven = spread + Math.abs(Number(measures['knife.tipDrop']));
    return [{ knife, bench, room, uneven }];
  });
  fitted.sort(
    (a, b) => a.uneven - b.uneven || b.room - a.room || (a.knife.id < b.knife.id ? -1 : 1),
  );
  return fitted[0] ?? null;
}

/**
 * Whether a knife can stand behind a mounted blade as every limit in force asks, and why; `bench` has it
 * set, or is null where it cannot be.
 */
export function weighKnife(
  mounted: Bench,
  knife: RackKnife,
  sets: readonly LimitSet[],
): { readonly reasons: readonly Reason[]; readonly bench: Bench | null } {
  const { plate, kerf } = mounted.blade;
  const { thickness } = knife;
  if (Math.min(thickness - plate, kerf - thickness) <= TOLERANCE) {
    const says =
      thickness - plate <= TOLERANCE
        ? `${thickness} mm is no thicker than the plate of ${plate} mm, so the kerf may close on the blade`
        : `${thickness} mm is no thinner than the kerf of ${kerf} mm, so it jams in the cut`;
    return { reasons: [against(says)], bench: null };
  }
  const bench = fitKnife(mounted, knife);
  const off = [against('it cannot stand behind this blade')];
  if (bench === null) return { reasons: off, bench: null };
  const failed = failures(bench, sets, 'knife.');
  if (failed.length > 0) return { reasons: failed, bench };
  if (Number(measureBench(bench)['knife.gapMin']) <= 0) return { reasons: off, bench };
  const says = `${thickness} mm goes between the plate of ${plate} mm and the kerf of ${kerf} mm`;
  return { reasons: [{ kind: 'for', says }], bench };
}

function sayMatch({ plate, kerf, gauge }: RackBlade, { title, thickness }: RackKnife): string {
  const sold = gauge === undefined ? '' : ` (gauge ${gauge})`;
  return `${title}, ${thickness} mm, goes between its plate of ${plate} mm${sold} and its kerf of ${kerf} mm`;
}

function scoreOf(suiting: readonly Suiting[]): number {
  if (suiting.length === 0) return 0;
  const sum = suiting.reduce((total, { worth }) => total + worth, 0);
  return (100 * sum) / suiting.length;
}
