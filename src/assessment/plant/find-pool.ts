import { SEVERITY_WEIGHT } from '../../grading/index.ts';
import type { FaultCatalogue, FaultPart, Severity } from '../../limits/index.ts';
import type { Estimate, SlotOf } from '../blueprint/index.ts';
import { TEST_SPOILERS } from './all-spoilers.ts';
import { LOOK_ALIKES } from './look-alikes.ts';
import type { LookAlike, Margin, Spoiler } from './spoiler.ts';

/** A look-alike, what naming it costs, and the part it is on. */
export type PooledLookAlike = {
  readonly lookAlike: LookAlike;
  readonly weight: number;
  readonly part: FaultPart;
};

/** What the forms of one slot can be made of. */
export type FindPool = {
  readonly bySeverity: Readonly<Record<Severity, readonly Spoiler[]>>;
  readonly lookAlikes: readonly PooledLookAlike[];
};

const clampChance = (percent: number): number => Math.min(95, Math.max(5, percent));

/** Per cent who find a fault planted so: by how it is come by, how near its limit, and which it is. */
export function estimateFinding(
  { fault, sense }: Pick<Spoiler, 'fault' | 'sense'>,
  margin: Margin,
  { find }: Estimate,
): number {
  const shift = margin === 'plain' ? 0 : find[margin];
  return clampChance(find.sense[sense] + shift + (find.faults[fault] ?? 0));
}

export function findPool(slot: SlotOf<'find'>, catalogue: FaultCatalogue): FindPool {
  const bySeverity = { danger: [], warning: [], caution: [] } as Record<Severity, Spoiler[]>;
  for (const spoiler of TEST_SPOILERS) {
    const fault = catalogue.byId.get(spoiler.fault);
    if (fault === undefined || slot.parts?.includes(fault.part) === false) continue;
    bySeverity[fault.severity].push(spoiler);
  }
  const lookAlikes = LOOK_ALIKES.flatMap((lookAlike) => {
    const like = catalogue.byId.get(lookAlike.like);
    if (like === undefined) return [];
    return [{ lookAlike, weight: SEVERITY_WEIGHT[like.severity], part: like.part }];
  });
  return { bySeverity, lookAlikes };
}
