export { type Claim, ClaimSchema, ClaimsSchema } from './claim-schema.ts';
export { type BenchGrade, gradeBench, type Rules, stopsWork } from './grade-bench.ts';
export {
  type ClaimsGrade,
  type FoundFault,
  gradeClaims,
  SEVERITY_WEIGHT,
  type WrongClaim,
} from './grade-claims.ts';
export { gradeSettings, type SettingsGrade } from './grade-settings.ts';
export { type GradeReport, reportGrade } from './report.ts';
export { scoreResult, scoreResults } from './score.ts';
