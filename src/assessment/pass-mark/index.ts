export { type RatingLine, ratingLines } from './rating-lines.ts';
export { type Ratings, ratesAll, type SettledMark, settleMark } from './settle-mark.ts';
