import type { Bench } from '../../bench/index.ts';
import type { Point } from '../../geometry/index.ts';
import { layoutOf } from '../build/layout.ts';

/** Where the saw goes through the work, seen from the end: mm, z on the level of the table. */
export type Kerf = {
  /** how high it reaches: the work's thickness when it goes through */
  readonly height: number;
  readonly through: boolean;
  /** half its width measured level, and how far its middle moves across for each mm up */
  readonly half: number;
  readonly slope: number;
};

export function kerfOf(bench: Bench): Kerf {
  const { projection, tilt } = layoutOf(bench);
  const { thickness } = bench.job.stock;
  const reach = projection * Math.cos(tilt);
  return {
    height: Math.min(thickness, Math.max(0, reach)),
    through: reach >= thickness,
    half: bench.blade.kerf / 2 / Math.cos(tilt),
    slope: Math.tan(tilt),
  };
}

/** Steps up the curve that the teeth leave at the end of a cut. */
const STEPS = 10;

/**
 * What is still whole in the line of the cut, from the side, mm in the bench frame: from the trailing
 * end to the curve of the front teeth. Null when nothing is left of it.
 * @param lead where the leading end is  @param furthest where it was when it was furthest in
 */
export function uncutOutline(bench: Bench, lead: number, furthest = lead): Point[] | null {
  const { tipRadius, depth, tilt, workLong } = layoutOf(bench);
  const { height } = kerfOf(bench);
  if (height <= 0) return null;
  const drawnBack = furthest - lead;
  const trail = lead - workLong;
  const front = Array.from({ length: STEPS + 1 }, (_, i): Point => {
    const y = (height * i) / STEPS;
    const teeth = -Math.sqrt(Math.max(0, tipRadius ** 2 - (depth + y / Math.cos(tilt)) ** 2));
    return { x: Math.max(trail, Math.min(lead, teeth - drawnBack)), y };
  });
  if (front.every(({ x }) => x <= trail)) return null;
  return [{ x: trail, y: height }, { x: trail, y: 0 }, ...front];
}
