export { cutSentence, fillPlaces, type Put, type SaidPart } from './fill.ts';
export * from './languages.ts';
export { countedKey } from './plural.ts';
