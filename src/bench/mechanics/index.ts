export * from './chip.ts';
export * from './force.ts';
export * from './gauge.ts';
export * from './kickback.ts';
export * from './noise.ts';
export * from './run-down.ts';
export * from './separation.ts';
export * from './speed.ts';
