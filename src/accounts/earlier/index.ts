export * from './earlier-of.ts';
export * from './enter-earlier.ts';
export * from './plan-earlier.ts';
