import type { AttemptGrade, AttemptRules, CutGrade, ReadingGrade } from '../assessment/index.ts';
import { type Bench, INSTRUMENTS, MEASURES, MEASURING_POINTS } from '../bench/index.ts';
import {
  adviseFor,
  type SettingAdvice,
  type SettingsGrade,
  sayAdvice,
  scoreResult,
} from '../grading/index.ts';
import { type Fault, type LimitSet, type Result, sayLimit } from '../limits/index.ts';
import { type Speaker, sayIn } from '../words/say.ts';
import { sayCritical } from './say-critical.ts';
import { type SaidChoice, type SaidPrediction, sayPrediction } from './say-kinds.ts';

/** One setting against one limit, as a page shows it. */
export type SaidSetting = Pick<
  Result,
  | 'measure'
  | 'value'
  | 'unit'
  | 'min'
  | 'max'
  | 'verdict'
  | 'margin'
  | 'closeness'
  | 'critical'
  | 'source'
  | 'set'
> & {
  /** id of the limit */
  readonly of: string;
  readonly title: string;
  /** what the limit asks, in millimetres and in inches */
  readonly limit: string;
  readonly limitInch: string;
  readonly score: number | null;
  /** one move that would bring it inside, in words; only where it misses and such a move is found */
  readonly advice?: Pick<SettingAdvice, 'setting' | 'by'> & {
    readonly mm: string;
    readonly inch: string;
  };
};

export type SaidFault = {
  readonly fault: string;
  readonly part: string;
  readonly title: string;
  readonly why: string;
  readonly todo: string;
  readonly looks: string;
  readonly from: string;
  readonly critical: boolean;
};

export type SaidClaim = {
  readonly fault: string;
  readonly part: string;
  readonly title: string;
};

export type SaidReading = Pick<ReadingGrade, 'at'> & {
  readonly place: string;
  readonly part: string;
  readonly taken:
    | (NonNullable<ReadingGrade['taken']> & { /** title of the tool */ readonly tool: string })
    | null;
};

export type SaidGrade = {
  readonly found: readonly (SaidFault & { readonly remedyRight: boolean })[];
  readonly missed: readonly SaidFault[];
  readonly wrong: readonly (SaidClaim & { readonly kind: 'right-part' | 'false-alarm' })[];
  readonly left: readonly SaidFault[];
  readonly settings: readonly SaidSetting[];
  /** each place that was to be measured, by its title */
  readonly readings: readonly SaidReading[];
  /** what was taken from the rack; null where the task left nothing to choose */
  readonly choice: SaidChoice | null;
  /** each number asked for beforehand */
  readonly predictions: readonly SaidPrediction[];
  /** null where no trial cut was asked for */
  readonly cut: CutGrade | null;
  /** sentences: what would have hurt somebody */
  readonly critical: readonly string[];
  readonly score: number;
  readonly fit: boolean;
};

const sayFault = (fault: Fault): SaidFault => ({
  fault: fault.id,
  part: fault.part,
  title: fault.title,
  why: fault.why,
  todo: fault.do,
  looks: fault.looks,
  from: fault.from,
  critical: fault.critical,
});

/** What to do about a setting of this bench that misses its limit, as fields to add. */
function sayMove(
  result: Result,
  bench: Bench,
  sets: readonly LimitSet[],
): Pick<SaidSetting, 'advice'> {
  const advice = adviseFor(result, bench, sets);
  if (advice === null) return {};
  const { setting, by } = advice;
  return { advice: { setting, by, mm: sayAdvice(advice, 'mm'), inch: sayAdvice(advice, 'inch') } };
}

/**
 * Settings in the words of a page; limits that do not apply here are left out.
 * @param bench as it stands now: what to move is worked out from it
 */
export function saySettings(
  grade: SettingsGrade | null,
  sets: readonly LimitSet[],
  bench: Bench,
): SaidSetting[] {
  const limits = new Map(sets.flatMap((set) => set.limits.map((limit) => [limit.id, limit])));
  return (grade?.results ?? []).flatMap((result) => {
    const limit = limits.get(result.limit);
    if (limit === undefined || result.verdict === 'not-applicable') return [];
    const { measure, value, unit, min, max, verdict, margin, closeness, critical, source, set } =
      result;
    const title =
      measure in MEASURES ? MEASURES[measure as keyof typeof MEASURES].title : result.title;
    return [
      {
        of: result.limit,
        measure,
        title,
        value,
        unit,
        min,
        max,
        verdict,
        margin,
        closeness,
        critical,
        source,
        set,
        limit: sayLimit(limit, result, 'mm'),
        limitInch: sayLimit(limit, result, 'inch'),
        score: scoreResult(result),
        ...sayMove(result, bench, sets),
      },
    ];
  });
}

const sayReading = ({ at, taken }: ReadingGrade): SaidReading => ({
  at,
  place: MEASURING_POINTS[at].title,
  part: MEASURING_POINTS[at].part,
  taken: taken && { ...taken, tool: INSTRUMENTS[taken.with].title },
});

/** A whole grade in the words of a page: in English unless a speaker is told. */
export function sayGrade(
  grade: AttemptGrade,
  { sets, catalogue }: AttemptRules,
  say: Speaker = sayIn('en'),
): SaidGrade {
  const { claims } = grade;
  return {
    found: (claims?.found ?? []).map(({ fault, remedyRight }) => ({
      ...sayFault(fault),
      remedyRight,
    })),
    missed: (claims?.missed ?? []).map(sayFault),
    wrong: (claims?.wrong ?? []).map(({ claim, kind }) => ({
      fault: claim.fault,
      part: claim.part,
      title: catalogue.byId.get(claim.fault)?.title ?? claim.fault,
      kind,
    })),
    left: grade.left.map(sayFault),
    settings: saySettings(grade.settings, sets, grade.end),
    readings: (grade.readings?.results ?? []).map(sayReading),
    choice: grade.choice,
    predictions: (grade.predictions?.results ?? []).map(sayPrediction),
    cut: grade.cut,
    critical: grade.critical.map((error) => sayCritical(error, grade.end, say)),
    score: Math.round(grade.score),
    fit: grade.fit,
  };
}
