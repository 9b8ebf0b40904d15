import { type Point, pointAt } from '../../geometry/index.ts';
import type { Blade } from '../schema/index.ts';
import { toothAngle } from './blade-outline.ts';

type Scratch = NonNullable<Blade['condition']['scratches']>[number];

/** Radians a scratch runs across the way the plate turns. */
const SLANT = 0.6;
/** How far below the gullet bottoms its outer end stays, as a share of the gullet depth. */
const CLEAR = 0.4;
/** Half of it along the turn, at most, as a share of the radius: longer, it would meet the flange. */
const WIDEST = 0.4;

/**
 * A scratch as a straight line on the plate, mm about the arbor axis: its middle straight below the tip of
 * its tooth, its outer end always inside the gullet bottoms. One too long for the plate is cut short.
 * @returns its ends, outer first; the radius of its middle; its length as it lies
 */
export function scratchLine(
  blade: Blade,
  scratch: Scratch,
): { readonly ends: readonly [Point, Point]; readonly radius: number; readonly length: number } {
  const outer = blade.diameter / 2 - (1 + CLEAR) * blade.gulletDepth;
  const along = Math.min((scratch.length / 2) * Math.cos(SLANT), outer * WIDEST);
  const across = along * Math.tan(SLANT);
  // the outer end lies on the circle of radius `outer`
  const radius = Math.sqrt(outer * outer - along * along) - across;
  const angle = toothAngle(blade.teeth, scratch.tooth);
  const middle = pointAt({ x: 0, y: 0 }, radius, angle);
  const half = along / Math.cos(SLANT);
  const way = angle + Math.PI / 2 - SLANT;
  return {
    ends: [pointAt(middle, half, way), pointAt(middle, -half, way)],
    radius,
    length: 2 * half,
  };
}
