export { type Known, type MatrixCell, type MatrixState, stateOf as matrixStateOf } from './cell.ts';
export {
  daysOf,
  isAskedFor,
  type MatrixFilters,
  STATE_FILTERS,
  type StateFilter,
} from './filters.ts';
export type { LateEntry } from './late-entries.ts';
export { cellsAt, countedCellsAt, type Matrix, matrixAt, placesAsked } from './matrix-at.ts';
export { type MatrixLog, type MatrixPerson, peopleThen, type ThenPerson } from './matrix-log.ts';
export {
  type CountedCell,
  countPlaces,
  END_DAYS,
  type EndDays,
  type MatrixPlace,
  registerThen,
} from './places.ts';
export { type AskedInstant, readInstant } from './read-instant.ts';
