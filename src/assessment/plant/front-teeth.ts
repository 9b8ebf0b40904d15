import type { Bench } from '../../bench/index.ts';
import { halfChord } from '../../geometry/index.ts';

/**
 * Teeth that show above the table at the operator's side, where a person can look at them: indices
 * from the top toward the operator. Compared by height, so that no angle has to be rounded.
 */
export function frontTeeth({ blade, arbor }: Bench): number[] {
  const radius = blade.diameter / 2;
  const shows = halfChord(radius, arbor.depth) / radius;
  // chord share of a quarter turn, in teeth; at least the first one shows
  const reach = Math.max(1, Math.floor((shows * blade.teeth) / 8));
  return Array.from({ length: reach }, (_, i) => i + 1);
}
