import type { Bench, Blade } from '../schema/index.ts';

/** mm, half the usual bore of a bench's blade (30 mm, common practice, no source). */
const USUAL_BORE = 15;

/** mm, radius of the hole in the middle: as given, or the usual one, smaller where the plate is small. */
export const boreRadius = (blade: Blade): number =>
  blade.bore === undefined
    ? Math.min(USUAL_BORE, (blade.diameter / 2 - blade.gulletDepth) * 0.4)
    : blade.bore / 2;

/**
 * mm, radius of the flanges that grip the blade: as given, or about a quarter of its diameter across
 * (common practice, no source), and always more than the bore they cover.
 */
export const collarRadius = ({ blade, arbor }: Bench): number =>
  arbor.collar === undefined
    ? Math.max(boreRadius(blade) + 4, Math.min(80, Math.max(16, blade.diameter * 0.125)))
    : arbor.collar / 2;
