import { type Bench, type Measures, measureBench } from '../bench/index.ts';
import {
  collectFailedEnds,
  deriveFaults,
  type Fault,
  type FaultCatalogue,
  judge,
  type LimitSet,
  type Result,
  type Uncertainty,
} from '../limits/index.ts';
import { scoreResults } from './score.ts';

/** What a bench is graded against. Build it once; it is the same for every bench. */
export type Rules = {
  /** limit sets in force, the deciding one first */
  readonly sets: readonly LimitSet[];
  readonly catalogue: FaultCatalogue;
  /** U of the instrument, mm; 0 when left out */
  readonly uncertainty?: Uncertainty;
};

export type BenchGrade = {
  /** ids of the sets, joined by commas */
  readonly limits: string;
  /** fit to run: nothing critical is wrong or left unproven */
  readonly fit: boolean;
  /** 0 to 100, the mean of the settings; null when no limit decided anything */
  readonly score: number | null;
  readonly measures: Measures;
  readonly results: readonly Result[];
  readonly faults: readonly Fault[];
};

/**
 * Whether a critical limit is not shown to be met. A setting too close to call counts: a limit
 * that stops the work has to be shown to be met, and "we cannot tell" does not show it. The
 * remedy is a better instrument or a setting further inside, both of which cost less than a hand.
 */
export const stopsWork = ({ critical, verdict }: Result): boolean =>
  critical && (verdict === 'outside' || verdict === 'too-close');

/**
 * Grades a whole bench: every limit, every fault. Pure; the same bench gives the same grade.
 * Its measures may be given where they are known already.
 */
export function gradeBench({
  bench,
  sets,
  catalogue,
  uncertainty = 0,
  measures = measureBench(bench),
}: Rules & { readonly bench: Bench; readonly measures?: Measures }): BenchGrade {
  const results = judgeAll(bench, measures, sets, uncertainty);
  const faults = deriveFaults(bench, measures, collectFailedEnds(results), catalogue);
  return {
    limits: sets.length === 1 ? (sets[0]?.id ?? '') : sets.map(({ id }) => id).join(','),
    fit: !results.some(stopsWork) && !faults.some(({ critical }) => critical),
    score: scoreResults(results),
    measures,
    results,
    faults,
  };
}

function judgeAll(
  bench: Bench,
  measures: Measures,
  sets: readonly LimitSet[],
  uncertainty: Uncertainty,
): Result[] {
  const [only] = sets;
  if (sets.length === 1 && only !== undefined) return judge(bench, measures, only, uncertainty);
  return sets.flatMap((set) => judge(bench, measures, set, uncertainty));
}
