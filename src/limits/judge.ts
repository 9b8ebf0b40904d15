import type { Bench, Measures, MeasureUnit } from '../bench/index.ts';
import { closenessOf } from './closeness.ts';
import {
  type FailedEnds,
  failedBit,
  type LimitEnd,
  type LimitGrade,
  NOTHING_FAILED,
} from './failed-ends.ts';
import { endFor, type Limit, type Source, type Wanted } from './limit.ts';
import type { LimitSet } from './limit-set.ts';
import { type Ends, failedEnd, marginTo, meetsEnds, type Verdict } from './verdict.ts';

export type SubjectValue = number | boolean | string | null;

/** One limit of a set against one bench. Plain data: it can be stored, sent and printed. */
export type Result = {
  readonly set: string;
  readonly limit: string;
  readonly title: string;
  readonly measure: string;
  readonly value: SubjectValue;
  readonly unit: MeasureUnit;
  /** ends of the limit for this bench, in `unit`; null where it has none */
  readonly min: number | null;
  readonly max: number | null;
  readonly verdict: Verdict;
  /** the plain comparison, uncertainty and standing of the source left aside; null when not applicable */
  readonly holds: boolean | null;
  /** the end shown to fail; null unless the verdict is `outside` */
  readonly failed: LimitEnd | null;
  /** signed distance to the nearest end, positive inside; null for words and where not applicable */
  readonly margin: number | null;
  /** 1 at the aim, 0 at the limit and outside; null where not applicable */
  readonly closeness: number | null;
  readonly grade: LimitGrade;
  readonly critical: boolean;
  readonly source: Source;
  readonly note: string | null;
};

/**
 * U of the instrument used, mm: one figure for every length, or one for each measure. Applies to
 * lengths only: an uncertainty in mm says nothing about a time, a ratio or a word.
 */
export type Uncertainty = number | Readonly<Partial<Record<string, number>>>;

/**
 * Every limit of a set against a bench, in the order of the set.
 * The decision rule is that of ISO 14253-1: with uncertainty U a setting is `within` only when it
 * is inside by at least U, `outside` only when it is outside by more than U, else `too-close`.
 */
export function judge(
  bench: Bench,
  measures: Measures,
  set: LimitSet,
  uncertainty: Uncertainty = 0,
): Result[] {
  return set.limits.map((limit) => judgeLimit(limit, bench, measures, uncertainty));
}

/** One limit against a bench. */
export function judgeLimit(
  limit: Limit,
  bench: Bench,
  measures: Measures,
  uncertainty: Uncertainty = 0,
): Result {
  const value = limit.read(bench, measures) as SubjectValue;
  const result = startResult(limit, value);
  if (value === null || !limit.inForce(bench, measures, NOTHING_FAILED)) return result;
  const { wanted } = limit;
  if (wanted.kind !== 'size') {
    judgeWord(result, wanted, limit);
    return result;
  }
  if (wanted.min !== null) result.min = endFor(wanted.min, bench, measures);
  if (wanted.max !== null) result.max = endFor(wanted.max, bench, measures);
  // where both ends hang on a part that is off, nothing is asked
  if (result.min !== null || result.max !== null) {
    judgeSize(result, Number(value), wanted, limit, uncertainty);
  }
  return result;
}

/** A result while it is being filled in: one object for each, as tens of thousands are made a second. */
type Draft = { -readonly [Key in keyof Result]: Result[Key] };

/** The result of a limit of which nothing can be said. */
function startResult(limit: Limit, value: SubjectValue): Draft {
  return {
    set: limit.set,
    limit: limit.id,
    title: limit.title,
    measure: limit.measure,
    value,
    unit: limit.unit,
    min: null,
    max: null,
    verdict: 'not-applicable',
    holds: null,
    failed: null,
    margin: null,
    closeness: null,
    grade: limit.grade,
    critical: limit.critical,
    source: limit.source,
    note: limit.note,
  };
}

function judgeWord(
  result: Draft,
  wanted: Exclude<Wanted, { kind: 'size' }>,
  { decides }: Limit,
): void {
  const { value } = result;
  const holds =
    wanted.kind === 'fitted'
      ? value === wanted.fitted
      : wanted.allowed.some((allowed) => allowed === value);
  result.verdict = decides ? (holds ? 'within' : 'outside') : 'advice';
  result.holds = holds;
  result.failed = decides && !holds ? 'word' : null;
  result.closeness = holds ? 1 : 0;
}

function judgeSize(
  result: Draft,
  value: number,
  { minInclusive, maxInclusive }: Extract<Wanted, { kind: 'size' }>,
  limit: Limit,
  uncertainty: Uncertainty,
): void {
  const ends: Ends = { min: result.min, minInclusive, max: result.max, maxInclusive };
  const u = limit.unit === 'mm' ? uncertaintyOf(limit.measure, uncertainty) : 0;
  const failed = failedEnd(value, ends, u);
  // a value known exactly fails an end or meets both
  const holds = u === 0 ? failed === null : meetsEnds(value, ends, 0);
  const sure =
    failed !== null ? 'outside' : u === 0 || meetsEnds(value, ends, u) ? 'within' : 'too-close';
  const margin = marginTo(value, ends);
  result.verdict = limit.decides ? sure : 'advice';
  result.holds = holds;
  result.failed = limit.decides ? failed : null;
  // at equality the last bit of a binary fraction must not show as a miss
  result.margin = margin !== null && margin < 0 && holds ? 0 : margin;
  result.closeness = holds ? closenessOf(value, limit.scale ?? ends, limit.aim) : 0;
}

const uncertaintyOf = (measure: string, uncertainty: Uncertainty): number =>
  typeof uncertainty === 'number' ? uncertainty : (uncertainty[measure] ?? 0);

/** Whether a result counts: it was judged against a figure that decides. */
export const isDecided = ({ verdict }: Result): boolean =>
  verdict === 'within' || verdict === 'outside' || verdict === 'too-close';

/** Which measures fail, and at which end, over all results given. */
export function collectFailedEnds(results: readonly Result[]): FailedEnds {
  let failed: Map<string, number> | null = null;
  for (const result of results) {
    if (result.failed === null) continue;
    failed ??= new Map();
    const bits = failed.get(result.measure) ?? 0;
    failed.set(result.measure, bits | failedBit(result.failed, result.grade));
  }
  return failed ?? NOTHING_FAILED;
}
