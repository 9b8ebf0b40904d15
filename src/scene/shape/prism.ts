import { ShapeUtils, Vector2 } from 'three';
import type { Point } from '../../geometry/index.ts';
import { addQuad, addTriangle, emptySolid, type Solid, type Vec } from './solid.ts';

/**
 * Which way a flat outline lies. `side`: points are (x, y), thickness along z. `plan`: points are
 * (z, x), thickness along y. `end`: points are (y, z), thickness along x. Each is right-handed.
 */
export type Plane = 'side' | 'plan' | 'end';

const PLACE: Record<Plane, (u: number, v: number, w: number) => Vec> = {
  side: (u, v, w) => [u, v, w],
  plan: (u, v, w) => [v, w, u],
  end: (u, v, w) => [w, u, v],
};

export type PrismOptions = {
  readonly plane: Plane;
  readonly outline: readonly Point[];
  readonly holes?: readonly (readonly Point[])[];
  /** mm along the thickness */
  readonly from: number;
  readonly to: number;
  /** mm broken off the outer edges */
  readonly chamfer?: number;
};

/** A plate or bar of any outline. Walls are smooth round curves and crisp at corners. */
export function prism({ plane, outline, holes = [], from, to, chamfer = 0 }: PrismOptions): Solid {
  const solid = emptySolid();
  const place = PLACE[plane];
  const outer = wound(outline, 1);
  const inner = holes.map((hole) => wound(hole, -1));
  const cut = Math.min(chamfer, Math.abs(to - from) / 2.05);
  const capOuter = cut > 0 ? inset(outer, cut) : outer;
  addCaps(solid, place, capOuter, inner, from, to);
  addWall(solid, place, outer, from + cut, to - cut);
  if (cut > 0) addChamfers(solid, place, outer, capOuter, [from, to], cut);
  for (const hole of inner) addWall(solid, place, hole, from, to);
  return solid;
}

export function signedArea(points: readonly Point[]): number {
  let twice = 0;
  for (let i = 0; i < points.length; i++) {
    const a = points[i] as Point;
    const b = points[(i + 1) % points.length] as Point;
    twice += a.x * b.y - b.x * a.y;
  }
  return twice / 2;
}

const wound = (points: readonly Point[], sign: 1 | -1): readonly Point[] =>
  Math.sign(signedArea(points)) === sign ? points : points.toReversed();

/** Triangles of a flat outline with holes, as indices into the outline followed by the holes. */
export function triangulate(
  outline: readonly Point[],
  holes: readonly (readonly Point[])[] = [],
): readonly (readonly [number, number, number])[] {
  const vectors = (points: readonly Point[]) => points.map(({ x, y }) => new Vector2(x, y));
  return ShapeUtils.triangulateShape(vectors(outline), holes.map(vectors)) as never;
}

type Place = (u: number, v: number, w: number) => Vec;

function addCaps(
  solid: Solid,
  place: Place,
  outer: readonly Point[],
  holes: readonly (readonly Point[])[],
  from: number,
  to: number,
): void {
  const all = [outer, ...holes].flat();
  for (const [i, j, k] of triangulate(outer, holes)) {
    const at = (index: number, w: number) => {
      const p = all[index] as Point;
      return place(p.x, p.y, w);
    };
    addTriangle(solid, [at(i, to), at(j, to), at(k, to)]);
    addTriangle(solid, [at(k, from), at(j, from), at(i, from)]);
  }
}

/** Walls meeting at less than this turn into one another. */
const CREASE = Math.cos((32 * Math.PI) / 180);

/** Outward normals of each edge, and for each edge its normals at both ends, smoothed round curves. */
function wallNormals(points: readonly Point[]): { edge: Point; start: Point; end: Point }[] {
  const count = points.length;
  const edges = points.map((a, i) => {
    const b = points[(i + 1) % count] as Point;
    const length = Math.hypot(b.x - a.x, b.y - a.y) || 1;
    return { x: (b.y - a.y) / length, y: -(b.x - a.x) / length };
  });
  const blend = (a: Point, b: Point): Point => {
    if (a.x * b.x + a.y * b.y < CREASE) return a;
    const length = Math.hypot(a.x + b.x, a.y + b.y);
    return { x: (a.x + b.x) / length, y: (a.y + b.y) / length };
  };
  return edges.map((edge, i) => ({
    edge,
    start: blend(edge, edges[(i + count - 1) % count] as Point),
    end: blend(edge, edges[(i + 1) % count] as Point),
  }));
}

function addWall(
  solid: Solid,
  place: Place,
  points: readonly Point[],
  from: number,
  to: number,
): void {
  wallNormals(points).forEach(({ start, end }, i) => {
    const a = points[i] as Point;
    const b = points[(i + 1) % points.length] as Point;
    const [n0, n1] = [place(start.x, start.y, 0), place(end.x, end.y, 0)];
    addQuad(
      solid,
      [place(a.x, a.y, from), place(b.x, b.y, from), place(b.x, b.y, to), place(a.x, a.y, to)],
      [n0, n1, n1, n0],
    );
  });
}

function addChamfers(
  solid: Solid,
  place: Place,
  outer: readonly Point[],
  cap: readonly Point[],
  [from, to]: readonly [number, number],
  cut: number,
): void {
  outer.forEach((a, i) => {
    const next = (i + 1) % outer.length;
    const b = outer[next] as Point;
    const [ca, cb] = [cap[i] as Point, cap[next] as Point];
    addQuad(solid, [
      place(a.x, a.y, to - cut),
      place(b.x, b.y, to - cut),
      place(cb.x, cb.y, to),
      place(ca.x, ca.y, to),
    ]);
    addQuad(solid, [
      place(ca.x, ca.y, from),
      place(cb.x, cb.y, from),
      place(b.x, b.y, from + cut),
      place(a.x, a.y, from + cut),
    ]);
  });
}

/** The outline drawn in by `by` mm along each corner's mitre. For cuts small beside the outline. */
export function inset(points: readonly Point[], by: number): Point[] {
  const normals = wallNormals(points).map(({ edge }) => edge);
  return points.map((point, i) => {
    const before = normals[(i + points.length - 1) % points.length] as Point;
    const after = normals[i] as Point;
    const sum = { x: before.x + after.x, y: before.y + after.y };
    const along = sum.x * after.x + sum.y * after.y;
    // at a needle corner the mitre would run away
    const reach = by / Math.max(along, 0.3);
    return { x: point.x - sum.x * reach, y: point.y - sum.y * reach };
  });
}
