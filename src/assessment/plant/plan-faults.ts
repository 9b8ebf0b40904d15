import { SEVERITY_WEIGHT } from '../../grading/index.ts';
import { type FaultCatalogue, SEVERITIES } from '../../limits/index.ts';
import type { Estimate, SlotOf } from '../blueprint/index.ts';
import { type Random, seedRandom } from '../random.ts';
import { expectedFinding, overPopulation } from './expected-find.ts';
import { estimateFinding, type FindPool, findPool, type PooledLookAlike } from './find-pool.ts';
import type { Margin, Spoiler } from './spoiler.ts';

/** One fault to be planted, and how likely it is found: per cent, an estimate. */
export type PlannedFault = {
  readonly spoiler: Spoiler;
  readonly margin: Margin;
  readonly weight: number;
  readonly estimate: number;
};

export type FindPlan = {
  readonly faults: readonly PlannedFault[];
  readonly lookAlikes: readonly PooledLookAlike[];
  /** score expected over the population, 0 to 100 */
  readonly expected: number;
};

type Slot = SlotOf<'find'>;

/** Draws plans for one slot, each as hard as the next. */
export type Planner = {
  /** what every form of the slot should be expected to score */
  readonly target: number;
  /**
   * @param barred faults and look-alikes that were tried on this bench and cannot be
   * @returns the first draw on target, else the nearest of many; null when too few things are left
   */
  readonly plan: (barred: ReadonlySet<string>, random: Random) => FindPlan | null;
};

/** Points of the expected score that a form may be off the target. */
const TOLERANCE = 0.6;
const DRAWS = 300;
/** Draws whose mean is the target. From a stream of their own, so that it is the same for every form. */
const SOUNDINGS = 60;

const NOTHING: ReadonlySet<string> = new Set();

export function planFaults(slot: Slot, catalogue: FaultCatalogue, estimate: Estimate): Planner {
  const pool = findPool(slot, catalogue);
  const draw = (barred: ReadonlySet<string>, random: Random): FindPlan | null =>
    drawPlan(slot, pool, catalogue, estimate, barred, random);

  const sounding = seedRandom('sounding');
  const soundings = Array.from({ length: SOUNDINGS }, () => draw(NOTHING, sounding));
  const drawn = soundings.flatMap((plan) => (plan === null ? [] : [plan.expected]));
  const target = drawn.reduce((sum, expected) => sum + expected, 0) / Math.max(1, drawn.length);

  const plan: Planner['plan'] = (barred, random) => {
    let nearest: FindPlan | null = null;
    let least = Number.POSITIVE_INFINITY;
    for (let i = 0; i < DRAWS && least > TOLERANCE; i++) {
      const one = draw(barred, random);
      const off = one === null ? least : Math.abs(one.expected - target);
      if (off >= least) continue;
      nearest = one;
      least = off;
    }
    return nearest;
  };
  return { target, plan };
}

/** Faults and look-alikes by lot, as many as the slot asks for, no two on the same thing. */
function drawPlan(
  slot: Slot,
  pool: FindPool,
  catalogue: FaultCatalogue,
  estimate: Estimate,
  barred: ReadonlySet<string>,
  random: Random,
): FindPlan | null {
  const taken = new Set<string>();
  const faults: PlannedFault[] = [];
  for (const severity of SEVERITIES) {
    for (let left = slot.faults[severity]; left > 0; left--) {
      const free = pool.bySeverity[severity].filter(
        ({ group, fault }) => !taken.has(group) && !barred.has(fault),
      );
      if (free.length === 0) return null;
      const spoiler = random.pick(free);
      taken.add(spoiler.group);
      const margin = drawMargin(spoiler, slot, random);
      faults.push({
        spoiler,
        margin,
        weight: SEVERITY_WEIGHT[severity],
        estimate: estimateFinding(spoiler, margin, estimate),
      });
    }
  }
  const lookAlikes: PooledLookAlike[] = [];
  for (let left = slot.lookAlikes; left > 0; left--) {
    const free = pool.lookAlikes.filter(
      ({ lookAlike }) => !taken.has(lookAlike.group) && !barred.has(lookAlike.id),
    );
    if (free.length === 0) return null;
    const one = random.pick(free);
    taken.add(one.lookAlike.group);
    lookAlikes.push(one);
  }
  const parts = new Set(faults.map(({ spoiler }) => catalogue.byId.get(spoiler.fault)?.part));
  const odd = lookAlikes.map(({ weight, part }) => ({
    weight,
    onFaultyPart: parts.has(part),
    estimate: estimate.find.lookAlike,
  }));
  const { remedy } = estimate.find;
  const toFind = { faults, lookAlikes: odd, remedy };
  const expected = overPopulation((shift) => expectedFinding(toFind, shift));
  return { faults, lookAlikes, expected };
}

function drawMargin({ margins }: Spoiler, { near }: Slot, random: Random): Margin {
  const isNear = random.whole(1, 100) <= near;
  const [only = 'plain', other] = margins;
  return other === undefined ? only : isNear ? 'near' : 'far';
}
