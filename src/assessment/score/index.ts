export { expectedFind, expectedScore } from './expected-score.ts';
export type * from './form-grade.ts';
export { gradeForm } from './grade-form.ts';
export type * from './key.ts';
export { keyOf } from './key-of.ts';
export { type SettingScore, scoreCloseness, scoreSettings } from './setting-score.ts';
