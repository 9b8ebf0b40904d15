export { adoptMark, openMark, rateBlueprint, WHY_NOT_SET } from './decide.ts';
export {
  type Adopted,
  lastRatings,
  type MarkSetting,
  markOf,
  passMarkInForce,
  type Rated,
  readMarkSetting,
} from './read-setting.ts';
export { type MarkView, MOST_ROUNDS, viewMark } from './view-setting.ts';
