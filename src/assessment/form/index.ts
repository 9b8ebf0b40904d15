export { chooseSeed } from './choose-seed.ts';
export { type ExamContent, type ExamRules, examRules } from './exam-rules.ts';
export { type MoveEffect, makeMove, OWN, replayMoves, type Setting, startSetting } from './fit.ts';
export type * from './form.ts';
export { FORM_GENERATOR, makeForm } from './make-form.ts';
export { type FormForCandidate, type ShownTask, showForm } from './show-form.ts';
export {
  type Answer,
  type AnswerOf,
  AnswerSchema,
  CONFIDENCE,
  type Confidence,
  type Finding,
  FindingSchema,
  type Fit,
  type Move,
  MoveSchema,
  type Work,
  WorkSchema,
} from './work-schema.ts';
