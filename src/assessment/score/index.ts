export type * from './form-grade.ts';
export type * from './key.ts';
