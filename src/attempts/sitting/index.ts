export { type PersonTests, testsByPerson } from './count-passed.ts';
export type { EndedSitting } from './end-sitting.ts';
export { faultsMet } from './faults-met.ts';
export { openSittingOf } from './open-row.ts';
export {
  openSitting,
  type SittingCard,
  type SittingGiven,
  type SittingOpened,
} from './open-sitting.ts';
export {
  findSitting,
  type GradedSitting,
  gradeSitting,
  mayReadResult,
  type SittingRecord,
  sittingsOf,
} from './read-sittings.ts';
export { releaseSitting } from './release-sitting.ts';
export { askMoreTime, handInSitting, type SavedSitting, saveSitting } from './save-sitting.ts';
export { type Setting, setSitting, settingsFor } from './settings.ts';
export { blueprintsOf } from './sitting-rules.ts';
export { blueprintSittings } from './test-sittings.ts';
export type { TimeChoice, ToldTime } from './time.ts';
