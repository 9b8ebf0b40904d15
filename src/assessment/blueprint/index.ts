export * from './blueprint-schema.ts';
export * from './estimate-schema.ts';
export { PASS_METHODS, type PassMark, PassMarkSchema } from './pass-mark.ts';
export * from './situation-schema.ts';
