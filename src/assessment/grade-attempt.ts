import type { Bench } from '../bench/index.ts';
import {
  type Claim,
  type ClaimsGrade,
  gradeBench,
  gradeClaims,
  gradeSettings,
  type Rack,
  type SettingsGrade,
} from '../grading/index.ts';
import type { Fault, FaultCatalogue, LimitSet } from '../limits/index.ts';
import { type CriticalError, countErrors } from './critical-errors.ts';
import type { CutMade } from './cuts-made.ts';
import type { Move, MoveEffect } from './form/index.ts';
import { type ChoiceGrade, gradeChoice } from './grade-choice.ts';
import { type CutGrade, gradeCut } from './grade-cut.ts';
import { gradePredictions, type PredictionsGrade } from './grade-predictions.ts';
import { gradeReadings, type ReadingsGrade } from './grade-readings.ts';
import { replayWork } from './replay-moves.ts';
import type { SaidBeforehand } from './say-beforehand.ts';
import { hangRack } from './task-rack.ts';
import type { Task } from './task-schema.ts';

/** What somebody did at a bench: all that is stored of an attempt. */
export type Attempt = {
  readonly task: Task;
  /** the bench as it was given */
  readonly start: Bench;
  readonly actions: readonly Move[];
  readonly claims: readonly Claim[];
  /** numbers written down beforehand; left out, none were asked for */
  readonly said?: readonly SaidBeforehand[];
};

export type AttemptRules = {
  readonly sets: readonly LimitSet[];
  readonly catalogue: FaultCatalogue;
  /** what a task with a choice is chosen from; null where nothing is */
  readonly rack?: Rack | null;
};

export type AttemptGrade = {
  /** the bench as it was left */
  readonly end: Bench;
  readonly effects: readonly { readonly action: number; readonly effect: MoveEffect }[];
  /** null where the task does not ask for faults */
  readonly claims: ClaimsGrade | null;
  /** null where the task does not ask for settings */
  readonly settings: SettingsGrade | null;
  /** null where the task does not ask for readings */
  readonly readings: ReadingsGrade | null;
  /** null where the task leaves nothing to choose */
  readonly choice: ChoiceGrade | null;
  /** null where the task asks for no number beforehand */
  readonly predictions: PredictionsGrade | null;
  /** null where the task asks for no cut */
  readonly cut: CutGrade | null;
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
export function gradeAttempt(attempt: Attempt, rules: AttemptRules): AttemptGrade {
  const { sets, catalogue } = rules;
  const { task, start, actions, claims: made } = attempt;
  const rack = task.choose === true ? (rules.rack ?? null) : null;
  const { end, effects, cuts } = replayWork(start, actions, rack && hangRack(start, rack));
  const critical = countErrors(effects, cuts, { sets, catalogue });
  const claims = task.faults ? gradeClaims({ bench: start, sets, catalogue, claims: made }) : null;
  const settings =
    task.settings.length > 0 ? gradeSettings({ bench: end, sets, measures: task.settings }) : null;
  const readings = task.readings ? gradeReadings(task.readings, effects) : null;
  const choice = rack === null ? null : gradeChoice(end, rack, { sets, catalogue });
  const predictions = task.predict
    ? gradePredictions(start, task.predict, attempt.said ?? [], actions)
    : null;
  const cut = task.cut === true ? gradeCut(cuts, critical) : null;
  const parts = new Set([
    ...task.settings.map((measure) => measure.split('.')[0]),
    ...(choice?.lines.map(({ what }) => what) ?? []),
  ]);
  const whole = gradeBench({ bench: end, sets, catalogue });
  const asked = [claims, settings, readings, choice, predictions, cut];
  const scores = asked.flatMap((one) => (typeof one?.score === 'number' ? [one.score] : []));
  const total = scores.reduce((sum, score) => sum + score, 0);
  return {
    end,
    effects,
    claims,
    settings,
    readings,
    choice,
    predictions,
    cut,
    left: whole.faults.filter(({ part }) => parts.has(part)),
    critical,
    cuts,
    fit: whole.fit,
    score: scores.length === 0 ? 0 : total / scores.length,
  };
}
