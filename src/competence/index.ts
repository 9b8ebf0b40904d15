export * from './dates.ts';
export * from './evidence.ts';
export * from './interval.ts';
export * from './say-status.ts';
export * from './unit-schema.ts';
export * from './unit-status.ts';
export * from './work.ts';
export * from './work-status.ts';
