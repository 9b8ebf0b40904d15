export { crackTooth } from './blade-cracks.ts';
export * from './blade-fittings.ts';
export * from './blade-outline.ts';
export { scratchLine } from './blade-scratches.ts';
export * from './knife-outline.ts';
export { type ToothStand, toothStands } from './tooth-stand.ts';
