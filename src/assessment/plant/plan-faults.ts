import { SEVERITY_WEIGHT } from '../../grading/index.ts';
import { type FaultCatalogue, SEVERITIES, type Severity } from '../../limits/index.ts';
import type { Estimate, SlotOf } from '../blueprint/index.ts';
import type { Random } from '../random.ts';
import { TEST_SPOILERS } from './all-spoilers.ts';
import { LOOK_ALIKES } from './look-alikes.ts';
import type { LookAlike, Margin, Spoiler } from './spoiler.ts';

/** One fault to be planted, and how likely it is found: per cent, an estimate. */
export type PlannedFault = {
  readonly spoiler: Spoiler;
  readonly margin: Margin;
  readonly weight: number;
  readonly estimate: number;
};
export type PlannedLookAlike = { readonly lookAlike: LookAlike; readonly weight: number };

export type FindPlan = {
  readonly faults: readonly PlannedFault[];
  readonly lookAlikes: readonly PlannedLookAlike[];
  /** per cent of the score expected of somebody at the end of training, in tenths: whole */
  readonly expected: number;
};

type Pool = {
  readonly bySeverity: Readonly<Record<Severity, readonly Spoiler[]>>;
  readonly lookAlikes: readonly PlannedLookAlike[];
  /** what a form should be expected to score, in the same tenths */
  readonly target: number;
};

const clampChance = (chance: number): number => Math.min(95, Math.max(5, chance));

/** Per cent who find a fault planted so: by how it is come by, how near its limit, and which it is. */
export function estimateFinding(
  { fault, sense }: Pick<Spoiler, 'fault' | 'sense'>,
  margin: Margin,
  { find }: Estimate,
): number {
  const shift = margin === 'plain' ? 0 : find[margin];
  return clampChance(find.sense[sense] + shift + (find.faults[fault] ?? 0));
}

const weightOf = (fault: string, catalogue: FaultCatalogue): number =>
  SEVERITY_WEIGHT[catalogue.byId.get(fault)?.severity ?? 'danger'];

/**
 * What the faults and look-alikes of a form come to, in tenths of a per cent. Whole numbers all the
 * way, so that two machines cannot balance a form differently.
 */
function expectedOf(
  faults: readonly PlannedFault[],
  lookAlikes: readonly PlannedLookAlike[],
  catalogue: FaultCatalogue,
  { find }: Estimate,
): number {
  const parts = new Set(faults.map(({ spoiler }) => catalogue.byId.get(spoiler.fault)?.part));
  const all = faults.reduce((sum, { weight }) => sum + weight, 0);
  // a fault found and dealt with wrongly earns half
  const earned = faults.reduce(
    (sum, { weight, estimate }) => sum + weight * estimate * (100 + find.remedy),
    0,
  );
  const lost = lookAlikes.reduce((sum, { lookAlike, weight }) => {
    const share = parts.has(catalogue.byId.get(lookAlike.like)?.part) ? 1 : 2;
    return sum + weight * find.lookAlike * share * 100;
  }, 0);
  return all === 0 ? 0 : Math.round((earned - lost) / (20 * all));
}

type Slot = SlotOf<'find'>;

/** What a form of this slot can be made of, and what it should come to. */
export function findPool(slot: Slot, catalogue: FaultCatalogue, estimate: Estimate): Pool {
  const known = ({ fault }: Spoiler) => {
    const entry = catalogue.byId.get(fault);
    return entry !== undefined && (slot.parts?.includes(entry.part) ?? true);
  };
  const bySeverity = { danger: [], warning: [], caution: [] } as Record<Severity, Spoiler[]>;
  for (const spoiler of TEST_SPOILERS.filter(known)) {
    const severity = catalogue.byId.get(spoiler.fault)?.severity;
    if (severity !== undefined) bySeverity[severity].push(spoiler);
  }
  const lookAlikes = LOOK_ALIKES.filter(({ like }) => catalogue.byId.has(like)).map(
    (lookAlike) => ({ lookAlike, weight: weightOf(lookAlike.like, catalogue) }),
  );
  const target = targetOf(slot, bySeverity, lookAlikes, estimate);
  return { bySeverity, lookAlikes, target };
}

const meanOf = (values: readonly number[]): number =>
  values.length === 0 ? 0 : values.reduce((sum, value) => sum + value, 0) / values.length;

/** The mean over the whole pool, with look-alikes of mean weight half of which fall on a faulty part. */
function targetOf(
  slot: Slot,
  bySeverity: Pool['bySeverity'],
  lookAlikes: readonly PlannedLookAlike[],
  estimate: Estimate,
): number {
  const { near, faults, lookAlikes: odd } = slot;
  let all = 0;
  let earned = 0;
  for (const severity of SEVERITIES) {
    const chances = bySeverity[severity].map((spoiler) => {
      const at = (margin: Margin) => estimateFinding(spoiler, margin, estimate);
      const [only = 'plain', other] = spoiler.margins;
      if (other === undefined) return at(only);
      return (near * at('near') + (100 - near) * at('far')) / 100;
    });
    const weight = faults[severity] * SEVERITY_WEIGHT[severity];
    all += weight;
    earned += weight * meanOf(chances) * (100 + estimate.find.remedy);
  }
  const lost = odd * meanOf(lookAlikes.map(({ weight }) => weight)) * estimate.find.lookAlike * 150;
  return all === 0 ? 0 : Math.round((earned - lost) / (20 * all));
}

/** Tenths of a per cent that a form may be off the target. */
const TOLERANCE = 8;
const DRAWS = 400;

/**
 * Draws faults and look-alikes, no two on the same thing, whose expected score is that of every other
 * form of the blueprint.
 * @param barred faults and look-alikes that were tried on this bench and cannot be
 * @returns the first draw on target, else the nearest of many; null when too few things are left
 */
export function planFaults(
  slot: Slot,
  pool: Pool,
  catalogue: FaultCatalogue,
  estimate: Estimate,
  barred: ReadonlySet<string>,
  random: Random,
): FindPlan | null {
  let nearest: FindPlan | null = null;
  for (let draw = 0; draw < DRAWS; draw++) {
    const plan = drawPlan(slot, pool, catalogue, estimate, barred, random);
    if (plan === null) continue;
    const off = Math.abs(plan.expected - pool.target);
    if (nearest === null || off < Math.abs(nearest.expected - pool.target)) nearest = plan;
    if (off <= TOLERANCE) return plan;
  }
  return nearest;
}

function drawPlan(
  slot: Slot,
  pool: Pool,
  catalogue: FaultCatalogue,
  estimate: Estimate,
  barred: ReadonlySet<string>,
  random: Random,
): FindPlan | null {
  const taken = new Set<string>();
  const faults: PlannedFault[] = [];
  for (const severity of SEVERITIES) {
    const open = pool.bySeverity[severity].filter(({ fault }) => !barred.has(fault));
    for (let left = slot.faults[severity]; left > 0; left--) {
      const free = open.filter(({ group }) => !taken.has(group));
      if (free.length === 0) return null;
      const spoiler = random.pick(free);
      taken.add(spoiler.group);
      const isNear = random.whole(1, 100) <= slot.near;
      const [only = 'plain', other] = spoiler.margins;
      const margin = other === undefined ? only : isNear ? 'near' : 'far';
      faults.push({
        spoiler,
        margin,
        weight: SEVERITY_WEIGHT[severity],
        estimate: estimateFinding(spoiler, margin, estimate),
      });
    }
  }
  const lookAlikes: PlannedLookAlike[] = [];
  for (let left = slot.lookAlikes; left > 0; left--) {
    const free = pool.lookAlikes.filter(
      ({ lookAlike }) => !taken.has(lookAlike.group) && !barred.has(lookAlike.id),
    );
    if (free.length === 0) return null;
    const one = random.pick(free);
    taken.add(one.lookAlike.group);
    lookAlikes.push(one);
  }
  return { faults, lookAlikes, expected: expectedOf(faults, lookAlikes, catalogue, estimate) };
}
