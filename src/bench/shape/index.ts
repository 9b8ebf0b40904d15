export * from './blade-outline.ts';
export * from './knife-outline.ts';
