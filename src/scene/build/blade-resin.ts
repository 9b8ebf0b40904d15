import type { Blade } from '../../bench/index.ts';
import type { Point } from '../../geometry/index.ts';
import type { Piece } from '../shape/pieces.ts';
import { triangulate } from '../shape/prism.ts';
import { addTriangle, emptySolid, type Vec } from '../shape/solid.ts';
import { COLOURS } from '../surface/colours.ts';
import { latticeNoise } from '../surface/noise.ts';
import { bendAt, type TeethAndBody } from './blade-teeth.ts';

/** mm the crust stands off the metal. */
const THICK = 0.06;

/**
 * Resin baked on: a crust on both sides of every tooth, thickest behind its face and gone where the
 * point still cuts, and running out on the plate below the gullets.
 */
export function resinCrust(blade: Blade, { teeth, body }: TeethAndBody): Piece {
  const solid = emptySolid();
  const alphas: number[] = [];
  const rough = latticeNoise(31, 7, 5);
  const tip = blade.diameter / 2;
  const root = tip - blade.gulletDepth;
  const ends = root - 2.1 * blade.gulletDepth;
  const thickness = (p: Point): number => {
    const radius = Math.hypot(p.x, p.y);
    const up = (radius - root) / blade.gulletDepth;
    const round = Math.atan2(p.y, p.x) / (2 * Math.PI);
    const patchy =
      rough(round * 3, radius / 90) * 0.75 + rough(round * 11 + 0.4, radius / 33) * 0.5;
    const share = up > 0 ? 1 - 0.8 * up : Math.max(0, (radius - ends) / (root - ends)) ** 1.4;
    return Math.max(0, Math.min(0.86, share * patchy * 1.7 - 0.12));
  };
  const lay = (points: readonly [Point, Point, Point], set: number): void => {
    for (const side of [1, -1]) {
      const at = (p: Point): Vec => [
        p.x,
        p.y,
        side * (blade.plate / 2 + THICK) + bendAt(blade, set, Math.hypot(p.x, p.y)),
      ];
      const [a, b, c] = points;
      addTriangle(solid, side > 0 ? [at(a), at(b), at(c)] : [at(a), at(c), at(b)]);
      alphas.push(...(side > 0 ? [a, b, c] : [a, c, b]).map(thickness));
    }
  };
  for (const { points, set } of teeth) {
    for (const corners of triangulate(points)) {
      lay(corners.map((i) => points[i]) as unknown as [Point, Point, Point], set);
    }
  }
  const inward = (p: Point, share: number): Point => {
    const by = 1 + ((ends - root) / root) * share;
    return { x: p.x * by, y: p.y * by };
  };
  const bands = [0, 0.12, 0.26, 0.44, 0.68, 1];
  body.forEach((a, i) => {
    const b = body[(i + 1) % body.length] as Point;
    for (const [k, near] of bands.slice(0, -1).entries()) {
      const far = bands[k + 1] as number;
      const quad = [inward(a, near), inward(b, near), inward(b, far), inward(a, far)] as const;
      lay([quad[0], quad[1], quad[2]], 0);
      lay([quad[0], quad[2], quad[3]], 0);
    }
  });
  return { surface: 'stain', colour: COLOURS.resin, solid, alphas, mesh: 'blade-resin' };
}
