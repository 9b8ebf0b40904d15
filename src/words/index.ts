export { dayIn, drawnIn, figuresIn, timeIn } from './figures.ts';
export { cutSentence, fillPlaces, type Put, type SaidPart } from './fill.ts';
export * from './languages.ts';
export { countedKey } from './plural.ts';
