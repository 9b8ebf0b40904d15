import { type Bench, measureBench } from '../bench/index.ts';
import {
  type Fault,
  type FaultCatalogue,
  findFaults,
  type LimitSet,
  type Severity,
  type Uncertainty,
} from '../limits/index.ts';
import type { Claim } from './claim-schema.ts';

/** What finding a fault is worth. A `danger` missed can cost more than all else found. */
export const SEVERITY_WEIGHT: Readonly<Record<Severity, number>> = {
  danger: 4,
  warning: 2,
  caution: 1,
};

/** Share of its weight that a fault earns when it is found but would be dealt with wrongly. */
const WRONG_REMEDY = 0.5;
/** Share of the claimed weight that a wrong claim costs, where the part did have another fault. */
const RIGHT_PART_COST = 0.5;

export type FoundFault = {
  readonly fault: Fault;
  readonly claim: Claim;
  readonly remedyRight: boolean;
};

/** `right-part`: the part has a fault, but not this one. `false-alarm`: nothing is wrong there. */
export type WrongClaim = {
  readonly claim: Claim;
  readonly kind: 'right-part' | 'false-alarm';
};

export type ClaimsGrade = {
  readonly found: readonly FoundFault[];
  /** faults on the bench that nobody claimed */
  readonly missed: readonly Fault[];
  readonly wrong: readonly WrongClaim[];
  /** ids of critical faults missed: with one of these no score is a pass */
  readonly criticalMissed: readonly string[];
  readonly remedies: { readonly right: number; readonly of: number };
  /** share of the faults present that were found, 0 to 1; null when the bench has none */
  readonly sensitivity: number | null;
  /** claims on parts where nothing is wrong */
  readonly falseAlarms: number;
  /** share of the kinds of fault not present that were claimed all the same, 0 to 1 */
  readonly falseAlarmRate: number;
  /** 0 to 100 */
  readonly score: number;
};

/**
 * Grades what a person says is wrong with a bench against what the engine derives.
 *
 * Weights go by severity. A fault found earns its weight, half of it when the remedy is wrong. A
 * wrong claim costs the weight of what was claimed, half of it when that part has another fault.
 * So a guess can lose as much as a find can win, and marking the whole list scores nothing.
 * Where a fault is claimed twice the later claim stands: people change their minds.
 */
export function gradeClaims({
  bench,
  sets,
  catalogue,
  claims,
  uncertainty = 0,
}: {
  readonly bench: Bench;
  readonly sets: readonly LimitSet[];
  readonly catalogue: FaultCatalogue;
  readonly claims: readonly Claim[];
  readonly uncertainty?: Uncertainty;
}): ClaimsGrade {
  const present = findFaults(bench, measureBench(bench), sets, catalogue, uncertainty);
  const standing = lastOfEach(claims);

  const found: FoundFault[] = [];
  const missed: Fault[] = [];
  for (const fault of present) {
    const claim = standing.get(keyOf(fault.part, fault.id));
    if (claim === undefined) missed.push(fault);
    else found.push({ fault, claim, remedyRight: fault.remedies.includes(claim.remedy) });
  }

  const presentKeys = new Set(present.map(({ part, id }) => keyOf(part, id)));
  const faultyParts = new Set(present.map(({ part }) => part));
  const wrong = [...standing.values()]
    .filter(({ part, fault }) => !presentKeys.has(keyOf(part, fault)))
    .map((claim): WrongClaim => {
      return { claim, kind: faultyParts.has(claim.part) ? 'right-part' : 'false-alarm' };
    });
  const absent = catalogue.entries.length - present.length;
  return {
    found,
    missed,
    wrong,
    criticalMissed: missed.filter(({ critical }) => critical).map(({ id }) => id),
    remedies: { right: found.filter((one) => one.remedyRight).length, of: found.length },
    sensitivity: present.length === 0 ? null : found.length / present.length,
    falseAlarms: wrong.filter(({ kind }) => kind === 'false-alarm').length,
    falseAlarmRate: absent === 0 ? 0 : Math.min(1, wrong.length / absent),
    score: scoreClaims(present, found, wrong, catalogue),
  };
}

const keyOf = (part: string, fault: string): string => `${part} ${fault}`;

/** The last claim of each fault. */
function lastOfEach(claims: readonly Claim[]): Map<string, Claim> {
  return new Map(claims.map((claim) => [keyOf(claim.part, claim.fault), claim]));
}

function scoreClaims(
  present: readonly Fault[],
  found: readonly FoundFault[],
  wrong: readonly WrongClaim[],
  catalogue: FaultCatalogue,
): number {
  const all = present.reduce((sum, { severity }) => sum + SEVERITY_WEIGHT[severity], 0);
  const earned = found.reduce(
    (sum, { fault, remedyRight }) =>
      sum + SEVERITY_WEIGHT[fault.severity] * (remedyRight ? 1 : WRONG_REMEDY),
    0,
  );
  const cost = wrong.reduce((sum, { claim, kind }) => {
    // a claim the catalogue does not know costs as much as the gravest it does
    const severity = catalogue.byId.get(claim.fault)?.severity ?? 'danger';
    return sum + SEVERITY_WEIGHT[severity] * (kind === 'right-part' ? RIGHT_PART_COST : 1);
  }, 0);
  // a sound bench is worth one danger: to say nothing about it is the whole task
  const worth = all === 0 ? SEVERITY_WEIGHT.danger : all;
  const credit = all === 0 ? worth : earned;
  return (100 * Math.max(0, credit - cost)) / worth;
}
