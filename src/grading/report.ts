import { MEASURE_IDS, MEASURES, type MeasureUnit, type MeasureValue } from '../bench/index.ts';
import type { Result, Source } from '../limits/index.ts';
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
