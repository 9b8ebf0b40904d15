import type { BenchOverrides } from './bench.ts';

/**
 * What the sound bench needs changed to be sound under a set. Two sets ask for a guard that rides on
 * the work, which a hood set by hand at 50 mm stock cannot be.
 */
export const soundUnder = (set: string): BenchOverrides =>
  ['us', 'jp', 'za'].includes(set) ? { guard: { kind: 'counterweighted' } } : {};
