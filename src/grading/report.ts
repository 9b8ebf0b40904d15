import { MEASURE_IDS, MEASURES, type MeasureUnit, type MeasureValue } from '../bench/index.ts';
import type { Result, Source } from '../limits/index.ts';
import type { RuleComparison, RuleRow, Stand } from './compare-rules.ts';
import type { BenchGrade } from './grade-bench.ts';

type ReportedResult = Pick<
  Result,
  'limit' | 'measure' | 'value' | 'unit' | 'verdict' | 'margin' | 'closeness' | 'critical'
> & {
  readonly source: {
    readonly document: string;
    readonly clause: string | null;
    readonly year: number | null;
    readonly seen: Source['seen'];
  };
};

/** A grade as other programs read it. The names are fixed. */
export type GradeReport = {
  readonly limits: string;
  readonly fit: boolean;
  readonly score: number | null;
  readonly measures: Readonly<
    Record<string, { readonly value: MeasureValue; readonly unit: MeasureUnit }>
  >;
  readonly results: readonly ReportedResult[];
  readonly faults: readonly {
    readonly id: string;
    readonly part: string;
    readonly critical: boolean;
  }[];
};

export function reportGrade(grade: BenchGrade): GradeReport {
  return {
    limits: grade.limits,
    fit: grade.fit,
    score: grade.score,
    measures: Object.fromEntries(
      MEASURE_IDS.map((id) => [id, { value: grade.measures[id], unit: MEASURES[id].unit }]),
    ),
    results: grade.results.map(reportResult),
    faults: grade.faults.map(({ id, part, critical }) => ({ id, part, critical })),
  };
}

function reportResult(result: Result): ReportedResult {
  const { limit, measure, value, unit, verdict, margin, closeness, critical, source } = result;
  const { document, clause = null, year = null, seen } = source;
  return {
    limit,
    measure,
    value,
    unit,
    verdict,
    margin,
    closeness,
    critical,
    source: { document, clause, year, seen },
  };
}

/** What several sets make of one bench, added to the report of its grade. */
export type ComparisonReport = {
  readonly sets: readonly {
    readonly id: string;
    readonly version: number;
    readonly fit: boolean;
    readonly score: number | null;
  }[];
  /** topics on which the verdict flips, or which only some of the sets refuse */
  readonly flips: readonly {
    readonly topic: string;
    readonly agreement: Exclude<RuleRow['agreement'], 'same'>;
    readonly verdicts: Readonly<Record<string, Stand>>;
    /** ids of the limits behind the verdicts */
    readonly limits: readonly string[];
  }[];
};

export function reportComparison({ grades, rows }: RuleComparison): ComparisonReport {
  return {
    sets: grades.map(({ set, grade }) => ({
      id: set.id,
      version: set.version,
      fit: grade.fit,
      score: grade.score,
    })),
    flips: rows.flatMap(({ topic, agreement, cells }) =>
      agreement === 'same'
        ? []
        : [
            {
              topic: topic.id,
              agreement,
              verdicts: Object.fromEntries(cells.map(({ set, stand }) => [set, stand])),
              limits: cells.flatMap(({ results }) => results.map(({ limit }) => limit)),
            },
          ],
    ),
  };
}
