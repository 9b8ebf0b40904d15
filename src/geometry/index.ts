export * from './arc.ts';
export * from './point.ts';
export * from './segment.ts';
export * from './tolerance.ts';
export * from './units.ts';
