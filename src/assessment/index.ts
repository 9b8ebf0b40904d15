export * from './blueprint/index.ts';
export type { CriticalError } from './critical-errors.ts';
export { type CutMade, cutsMade } from './cuts-made.ts';
export * from './figures/index.ts';
export * from './form/index.ts';
export { makeFreshBench } from './fresh-bench.ts';
export {
  type Attempt,
  type AttemptGrade,
  type AttemptRules,
  gradeAttempt,
} from './grade-attempt.ts';
export type { ChoiceGrade, ChoiceLine } from './grade-choice.ts';
export type { CutGrade, CutLine } from './grade-cut.ts';
export { figureAsked, type PredictionGrade, type PredictionsGrade } from './grade-predictions.ts';
export type { ReadingGrade, ReadingsGrade } from './grade-readings.ts';
export * from './pass-mark/index.ts';
export { type Met, type PractiseNext, practiseNext } from './practise-next.ts';
export type { Prediction } from './prediction-schema.ts';
export { type Random, seedRandom } from './random.ts';
export {
  type SaidBeforehand,
  SaidBeforehandListSchema,
  SaidBeforehandSchema,
} from './say-beforehand.ts';
export * from './score/index.ts';
export { SPOILERS, type Spoiler } from './spoilers.ts';
export { kindsOf, type TaskKind } from './task-kinds.ts';
export { hangRack, type TaskRack } from './task-rack.ts';
export { type Task, TaskSchema } from './task-schema.ts';
export { GENERATOR_VERSION } from './version.ts';
