import { type Action, type Bench, type Effect, replay } from '../bench/index.ts';
import {
  type Claim,
  type ClaimsGrade,
  gradeBench,
  gradeClaims,
  gradeSettings,
  type SettingsGrade,
} from '../grading/index.ts';
import type { Fault, FaultCatalogue, LimitSet } from '../limits/index.ts';
import { type CriticalError, countErrors } from './critical-errors.ts';
import { type CutMade, cutsMade } from './cuts-made.ts';
import { gradeReadings, type ReadingsGrade } from './grade-readings.ts';
import type { Task } from './task-schema.ts';

/** What somebody did at a bench: all that is stored of an attempt. */
export type Attempt = {
  readonly task: Task;
  /** the bench as it was given */
  readonly start: Bench;
  readonly actions: readonly Action[];
  readonly claims: readonly Claim[];
};

export type AttemptRules = {
  readonly sets: readonly LimitSet[];
  readonly catalogue: FaultCatalogue;
};

export type AttemptGrade = {
  /** the bench as it was left */
  readonly end: Bench;
  readonly effects: readonly { readonly action: number; readonly effect: Effect }[];
  /** null where the task does not ask for faults */
  readonly claims: ClaimsGrade | null;
  /** null where the task does not ask for settings */
  readonly settings: SettingsGrade | null;
  /** null where the task does not ask for readings */
  readonly readings: ReadingsGrade | null;
  /** faults left on the parts that were to be set: a clamp not tightened counts */
  readonly left: readonly Fault[];
  readonly critical: readonly CriticalError[];
  /** every trial cut made, in order */
  readonly cuts: readonly CutMade[];
  /** whether the bench as left is fit to run under the limits in force */
  readonly fit: boolean;
  /** 0 to 100: the mean of what the task asks for */
  readonly score: number;
};

/**
 * Grades what was done, from the first bench on: pure, so that grading it again gives the same.
 * Faults are held against the bench as it was given, settings against the bench as it was left.
 */
export function gradeAttempt(attempt: Attempt, { sets, catalogue }: AttemptRules): AttemptGrade {
  const { task, start, actions, claims: made } = attempt;
  const { bench: end, effects } = replay(start, actions);
  const cuts = cutsMade(start, actions);
  const claims = task.faults ? gradeClaims({ bench: start, sets, catalogue, claims: made }) : null;
  const settings =
    task.settings.length > 0 ? gradeSettings({ bench: end, sets, measures: task.settings }) : null;
  const readings = task.readings ? gradeReadings(task.readings, effects) : null;
  const parts = new Set(task.settings.map((measure) => measure.split('.')[0]));
  const whole = gradeBench({ bench: end, sets, catalogue });
  const scores = [claims?.score, settings?.score, readings?.score].filter(
    (score) => typeof score === 'number',
  );
  return {
    end,
    effects,
    claims,
    settings,
    readings,
    left: whole.faults.filter(({ part }) => parts.has(part)),
    critical: countErrors(effects, cuts, { sets, catalogue }),
    cuts,
    fit: whole.fit,
    score: scores.length === 0 ? 0 : scores.reduce((sum, score) => sum + score, 0) / scores.length,
  };
}
