export { clockIn, dayIn, drawnIn, figuresIn, timeIn } from './figures.ts';
export { cutAndFill, cutSentence, fillPlaces, type Put, type SaidPart } from './fill.ts';
export { findSentence, sayAgain } from './find-sentence.ts';
export * from './languages.ts';
export { listIn } from './list.ts';
export { countedKey } from './plural.ts';
