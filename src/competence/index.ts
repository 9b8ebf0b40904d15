export * from './ages/age-schema.ts';
export * from './ages/settle-age.ts';
export * from './authorisation/authorisations.ts';
export * from './authorisation/may-work.ts';
export * from './bench-state/bench-state.ts';
export * from './check-list-schema.ts';
export * from './dates.ts';
export * from './due/due.ts';
export * from './interval.ts';
export {
  isSigned,
  isWithdrawn,
  type LogEvent,
  type PracticalSigned,
  type PracticalWithdrawn,
} from './log/log-event.ts';
export { roleAt } from './log/role-at.ts';
export * from './matrix/index.ts';
export * from './practice/practice.ts';
export * from './register.ts';
export { DEFAULT_RULES, type OrganisationRules, rulesOf } from './rules/organisation-rules.ts';
export * from './set-as-measured.ts';
export * from './settle-readings.ts';
export type { Settled, Sheet } from './sheet/index.ts';
export * from './sheet-schema.ts';
export { type Evidence, ONE_PRACTICAL } from './status/evidence.ts';
export * from './status/tell-status.ts';
export * from './status/unit-status.ts';
export type { RuleLine } from './status/weigh-evidence.ts';
export * from './status/work-status.ts';
export { leastTold } from './told/least-told.ts';
export {
  placesOf,
  sayToldInEnglish,
  shortName,
  type Told,
  type ToldKind,
  type ToldPlace,
  type ToldWords,
} from './told/told.ts';
export * from './unit-schema.ts';
export * from './work.ts';
