export * from './languages.ts';
