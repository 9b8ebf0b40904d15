export * from './check/index.ts';
export * from './events/index.ts';
export * from './statement/statement-schema.ts';
