export { adviseFor, type SettingAdvice, sayAdvice } from './advise.ts';
export {
  type BladeChoice,
  chooseBlade,
  type Reason,
  weighBlade,
  weighKnife,
} from './choose-blade.ts';
export { type Claim, ClaimSchema, ClaimsSchema } from './claim-schema.ts';
export {
  type Agreement,
  compareRules,
  type RuleCell,
  type RuleComparison,
  type RuleRow,
  type Stand,
} from './compare-rules.ts';
export { type BenchGrade, gradeBench, type Rules, stopsWork } from './grade-bench.ts';
export {
  type ClaimsGrade,
  type FoundFault,
  gradeClaims,
  SEVERITY_WEIGHT,
  type WrongClaim,
} from './grade-claims.ts';
export { gradeSettings, type SettingsGrade } from './grade-settings.ts';
export { mountBlade } from './mount-blade.ts';
export {
  type Rack,
  type RackBlade,
  type RackKnife,
  RackSchema,
  type ReadRack,
  readRack,
} from './rack-schema.ts';
export {
  type ComparisonReport,
  type GradeReport,
  reportComparison,
  reportGrade,
} from './report.ts';
export { scoreResult, scoreResults } from './score.ts';
export * from './statistics/index.ts';
export { type Topic, topicOf } from './topic.ts';
