export * from './data-map.ts';
export * from './erase-person.ts';
export * from './erasure-wish.ts';
export * from './own-data.ts';
export * from './periods.ts';
export * from './retention-choice.ts';
export * from './rows-of.ts';
export * from './sweep.ts';
