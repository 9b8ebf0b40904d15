import { type Bench, type MeasureId, measureBench } from '../bench/index.ts';
import { isDecided, judge, type LimitSet, type Result, type Uncertainty } from '../limits/index.ts';
import { stopsWork } from './grade-bench.ts';
import { scoreResults } from './score.ts';

export type SettingsGrade = {
  /** every result on one of the measures, in the order of the sets */
  readonly results: readonly Result[];
  /** 0 to 100; null when no limit decided anything */
  readonly score: number | null;
  /** every decided `must` is shown to be met */
  readonly met: boolean;
  /** ids of critical limits not shown to be met */
  readonly critical: readonly string[];
};

/** Grades only the settings a person was asked to make. */
export function gradeSettings({
  bench,
  sets,
  measures: wanted,
  uncertainty = 0,
}: {
  readonly bench: Bench;
  readonly sets: readonly LimitSet[];
  readonly measures: readonly MeasureId[];
  readonly uncertainty?: Uncertainty;
}): SettingsGrade {
  const asked = new Set<string>(wanted);
  const measures = measureBench(bench);
  const results = sets
    .flatMap((set) => judge(bench, measures, set, uncertainty))
    .filter(({ measure }) => asked.has(measure));
  return {
    results,
    score: scoreResults(results),
    met: results.every(
      (result) => !isDecided(result) || result.grade === 'should' || result.verdict === 'within',
    ),
    critical: results.filter(stopsWork).map(({ limit }) => limit),
  };
}
