/**
 * A piece of surface as loose triangles, mm in the bench frame. Plain arrays, so that many pieces can
 * be poured into one mesh without a geometry object each.
 */
export type Solid = {
  readonly positions: number[];
  readonly normals: number[];
  /** texture coordinates given by the shape itself; null leaves them to be projected when poured */
  readonly uvs: number[] | null;
};

/** x, y, z in mm. */
export type Vec = readonly [number, number, number];

export const emptySolid = (): Solid => ({ positions: [], normals: [], uvs: null });

export const subtract = (a: Vec, b: Vec): Vec => [a[0] - b[0], a[1] - b[1], a[2] - b[2]];
export const add = (a: Vec, b: Vec): Vec => [a[0] + b[0], a[1] + b[1], a[2] + b[2]];
export const scale = (a: Vec, by: number): Vec => [a[0] * by, a[1] * by, a[2] * by];
export const cross = (a: Vec, b: Vec): Vec => [
  a[1] * b[2] - a[2] * b[1],
  a[2] * b[0] - a[0] * b[2],
  a[0] * b[1] - a[1] * b[0],
];
export const dot = (a: Vec, b: Vec): number => a[0] * b[0] + a[1] * b[1] + a[2] * b[2];
export const lengthOf = (a: Vec): number => Math.hypot(a[0], a[1], a[2]);

export function unit(a: Vec): Vec {
  const length = lengthOf(a);
  return length === 0 ? [0, 1, 0] : scale(a, 1 / length);
}

/** Any direction square to `a`, and the one square to both, so that (side, up, a) is right-handed. */
export function squareTo(a: Vec): { side: Vec; up: Vec } {
  const helper: Vec = Math.abs(a[1]) < 0.9 ? [0, 1, 0] : [1, 0, 0];
  const side = unit(cross(helper, a));
  return { side, up: cross(a, side) };
}

/** Adds one triangle, counter-clockwise seen from outside, with a normal for each corner. */
export function addTriangle(
  solid: Solid,
  corners: readonly [Vec, Vec, Vec],
  normals?: readonly [Vec, Vec, Vec],
): void {
  const [a, b, c] = corners;
  let [na, nb, nc] = normals ?? [];
  if (na === undefined || nb === undefined || nc === undefined) {
    na = unit(cross(subtract(b, a), subtract(c, a)));
    nb = na;
    nc = na;
  }
  solid.positions.push(a[0], a[1], a[2], b[0], b[1], b[2], c[0], c[1], c[2]);
  solid.normals.push(na[0], na[1], na[2], nb[0], nb[1], nb[2], nc[0], nc[1], nc[2]);
}

/** Adds a four-sided face, corners counter-clockwise seen from outside. */
export function addQuad(
  solid: Solid,
  corners: readonly [Vec, Vec, Vec, Vec],
  normals?: readonly [Vec, Vec, Vec, Vec],
): void {
  const [a, b, c, d] = corners;
  addTriangle(solid, [a, b, c], normals && [normals[0], normals[1], normals[2]]);
  addTriangle(solid, [a, c, d], normals && [normals[0], normals[2], normals[3]]);
}

/** The same surface with every point and direction passed through `turn`, then shifted. */
export function movedSolid(solid: Solid, turn: (v: Vec) => Vec, shift: Vec = [0, 0, 0]): Solid {
  const positions: number[] = [];
  const normals: number[] = [];
  for (let i = 0; i < solid.positions.length; i += 3) {
    positions.push(...add(turn(vecAt(solid.positions, i)), shift));
    normals.push(...turn(vecAt(solid.normals, i)));
  }
  return { positions, normals, uvs: solid.uvs };
}

export const vecAt = (values: readonly number[], i: number): Vec => [
  values[i] as number,
  values[i + 1] as number,
  values[i + 2] as number,
];

/** Turns about one axis by `angle` radians, right-handed. */
export function turnAbout(axis: 'x' | 'y' | 'z', angle: number): (v: Vec) => Vec {
  const c = Math.cos(angle);
  const s = Math.sin(angle);
  if (axis === 'x') return ([x, y, z]) => [x, y * c - z * s, y * s + z * c];
  if (axis === 'y') return ([x, y, z]) => [x * c + z * s, y, -x * s + z * c];
  return ([x, y, z]) => [x * c - y * s, x * s + y * c, z];
}
