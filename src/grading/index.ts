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
export {
  type ComparisonReport,
  type GradeReport,
  reportComparison,
  reportGrade,
} from './report.ts';
export { scoreResult, scoreResults } from './score.ts';
export { type Topic, topicOf } from './topic.ts';
