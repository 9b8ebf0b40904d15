export { type Choices, PART_TITLES } from './choices.ts';
export { type HandedIn, handIn, tellVerdict } from './hand-in.ts';
export * from './pass-mark/index.ts';
export {
  type AttemptMark,
  type AttemptRecord,
  attemptsOf,
  findAttempt,
  MOST_ATTEMPTS,
  newestMarks,
} from './read-attempts.ts';
export type { SaidClaim, SaidFault, SaidGrade, SaidReading, SaidSetting } from './say-grade.ts';
export type { SaidChoice, SaidPrediction } from './say-kinds.ts';
export * from './sitting/index.ts';
export { type AskedBeforehand, type Given, startAttempt } from './start-attempt.ts';
export { taskSittings } from './task-sittings.ts';
