export * from './data-map.ts';
export * from './periods.ts';
