export { type Aim, closenessOf } from './closeness.ts';
export { compileCondition, type Test } from './condition.ts';
export { type Condition, ConditionSchema, checkCondition } from './condition-schema.ts';
export type { FailedEnds, LimitEnd, LimitGrade } from './failed-ends.ts';
export {
  deriveFaults,
  type Fault,
  type FaultCatalogue,
  findFaults,
  joinFaults,
  type ReadFaults,
  readFaults,
} from './fault-catalogue.ts';
export {
  FAULT_PARTS,
  FaultFileSchema,
  type FaultPart,
  SEVERITIES,
  type Severity,
} from './fault-schema.ts';
export { findLimit, setOfLimit } from './find-limit.ts';
export {
  collectFailedEnds,
  isDecided,
  judge,
  judgeLimit,
  type Result,
  type SubjectValue,
  type Uncertainty,
} from './judge.ts';
export { judgeReadings, type Reading } from './judge-readings.ts';
export type { Limit, Source } from './limit.ts';
export type { LimitEndFile, Seen } from './limit-schema.ts';
export { type Extending, type LimitSet, type ReadLimitSet, readLimitSet } from './limit-set.ts';
export { LimitSetSchema } from './limit-set-schema.ts';
export { REMEDIES, REMEDY_IDS, type RemedyId } from './remedy.ts';
export { reviveLimitSet } from './revive-set.ts';
export { SAY_SEEN, sayLimit, saySettling, saySource, sayValue } from './say.ts';
export { settlesWith } from './settle-with.ts';
export { BENCH_SCOPE, type Scope, type Subject } from './subject.ts';
export { type Ends, failedEnd, marginTo, meetsEnds, type Verdict } from './verdict.ts';
