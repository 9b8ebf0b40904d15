/** The practical sheet's sums. No schema library in here: the browser carries this. */
export * from '../dates.ts';
export * from '../interval.ts';
export * from '../work.ts';
export * from './blockers.ts';
export * from './check-draft.ts';
export * from './draft.ts';
export * from './practical.ts';
export * from './read-length.ts';
export * from './say-measured.ts';
export * from './settled.ts';
export * from './sheet.ts';
export {
  type Instruments,
  problemWithReading,
  readBladeOf,
  readingsOf,
  type SheetProblem,
} from './take-parts.ts';
export * from './tell.ts';
export * from './write-statement.ts';
