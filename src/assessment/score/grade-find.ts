import {
  type ClaimsGrade,
  type Detection,
  gradeClaims,
  type Judgement,
  measureDetection,
  SEVERITY_WEIGHT,
} from '../../grading/index.ts';
import type { ExamRules } from '../form/exam-rules.ts';
import type { FindTask } from '../form/form.ts';
import { type AnswerOf, CONFIDENCE, type Finding } from '../form/work-schema.ts';
import type { ScoreLine, TaskGrade } from './form-grade.ts';
import { gradeLines, lineOf } from './line.ts';

export type FindGrade = {
  readonly grade: TaskGrade;
  readonly detection: Detection | null;
  readonly judgements: readonly Judgement[];
};

/** Share of its weight a fault earns that would be dealt with wrongly, and that a wrong claim costs. */
const HALF = 0.5;

/**
 * Grades what was named against what the engine finds, line by line. Weights go by severity; what is
 * named and not there costs what it would have earned, half of that where its part has another fault.
 */
export function gradeFind(
  task: FindTask,
  answer: AnswerOf<'find'> | null,
  { sets, catalogue }: ExamRules,
): FindGrade {
  const findings = answer?.findings ?? [];
  const claims = gradeClaims({ bench: task.bench, sets, catalogue, claims: findings });
  const weightOf = (fault: string) =>
    SEVERITY_WEIGHT[catalogue.byId.get(fault)?.severity ?? 'danger'];
  const lines: ScoreLine[] = [
    ...claims.found.map(({ fault, claim, remedyRight }) => {
      const of = SEVERITY_WEIGHT[fault.severity];
      return lineOf(task, {
        what: 'found',
        about: fault.id,
        points: remedyRight ? of : HALF * of,
        of,
        values: { part: fault.part, severity: fault.severity, remedy: claim.remedy, remedyRight },
      });
    }),
    ...claims.missed.map((fault) =>
      lineOf(task, {
        what: 'missed',
        about: fault.id,
        points: 0,
        of: SEVERITY_WEIGHT[fault.severity],
        critical: fault.critical,
        values: { part: fault.part, severity: fault.severity },
      }),
    ),
    ...claims.wrong.map(({ claim, kind }) =>
      lineOf(task, {
        what: kind === 'right-part' ? 'wrong-fault' : 'false-alarm',
        about: claim.fault,
        points: -weightOf(claim.fault) * (kind === 'right-part' ? HALF : 1),
        of: 0,
        values: { part: claim.part, lookAlike: lookAlikeOf(task, claim.fault) },
      }),
    ),
  ];
  return {
    grade: gradeLines(task, lines),
    detection: detectionOf(claims, catalogue.entries.length),
    judgements: judgementsOf(findings, claims),
  };
}

/** The look-alike somebody was taken in by, if it was one. */
const lookAlikeOf = (task: FindTask, fault: string): string | null =>
  task.lookAlikes.find(({ like }) => like === fault)?.lookAlike ?? null;

/** Every kind of fault could be named: those there are signals, the others noise. */
function detectionOf({ found, missed, wrong }: ClaimsGrade, kinds: number): Detection | null {
  const signals = found.length + missed.length;
  const noise = kinds - signals;
  if (signals === 0 || noise === 0) return null;
  const counts = {
    hits: found.length,
    signals,
    falseAlarms: Math.min(noise, wrong.length),
    noise,
  };
  // naming everything and naming nothing come to exactly 0, however few the faults are
  return measureDetection(counts, 'proportional');
}

/** Where a fault is named twice the later word stands, as in the grade. */
function judgementsOf(findings: readonly Finding[], { found }: ClaimsGrade): Judgement[] {
  const standing = new Map(findings.map((one) => [`${one.part} ${one.fault}`, one]));
  const right = new Set(found.map(({ fault }) => `${fault.part} ${fault.id}`));
  return [...standing].map(([key, { confidence }]) => ({
    confidence: CONFIDENCE[confidence],
    right: right.has(key),
  }));
}
