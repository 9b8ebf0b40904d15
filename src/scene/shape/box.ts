import { addQuad, addTriangle, emptySolid, type Solid, type Vec } from './solid.ts';

/**
 * A box between two corners, its twelve edges broken by a flat chamfer so that they catch the light
 * as worked edges do.
 * @param chamfer mm; 0 leaves the edges sharp
 */
export function box(from: Vec, to: Vec, chamfer = 0): Solid {
  const solid = emptySolid();
  const low: Vec = [0, 1, 2].map((i) => Math.min(from[i] as number, to[i] as number)) as never;
  const high: Vec = [0, 1, 2].map((i) => Math.max(from[i] as number, to[i] as number)) as never;
  const room = Math.min(...[0, 1, 2].map((i) => (high[i] as number) - (low[i] as number))) / 2;
  const cut = Math.min(chamfer, room * 0.98);
  /** The corner at signs (sx, sy, sz), pulled in by the chamfer on every axis but `outer`. */
  const corner = (signs: Vec, outer: number): Vec =>
    [0, 1, 2].map((i) => {
      const edge = ((signs[i] as number) > 0 ? high : low)[i] as number;
      return i === outer ? edge : edge - (signs[i] as number) * cut;
    }) as unknown as Vec;
  for (const axis of [0, 1, 2]) addFaces(solid, axis, corner);
  if (cut > 0) {
    for (const axis of [0, 1, 2]) addEdges(solid, axis, corner);
    addCorners(solid, corner);
  }
  return solid;
}

type Corner = (signs: Vec, outer: number) => Vec;
const SIGNS = [-1, 1] as const;

const withSigns = (axis: number, along: number, b: number, c: number): Vec => {
  const signs = [0, 0, 0];
  signs[axis] = along;
  signs[(axis + 1) % 3] = b;
  signs[(axis + 2) % 3] = c;
  return signs as unknown as Vec;
};

function addFaces(solid: Solid, axis: number, corner: Corner): void {
  for (const side of SIGNS) {
    const at = (b: number, c: number) => corner(withSigns(axis, side, b, c), axis);
    const ring = [at(-1, -1), at(1, -1), at(1, 1), at(-1, 1)] as [Vec, Vec, Vec, Vec];
    addQuad(solid, side > 0 ? ring : (ring.reverse() as [Vec, Vec, Vec, Vec]));
  }
}

/** The chamfers that run along `axis`. */
function addEdges(solid: Solid, axis: number, corner: Corner): void {
  const [p, q] = [(axis + 1) % 3, (axis + 2) % 3];
  for (const b of SIGNS) {
    for (const c of SIGNS) {
      const low = withSigns(axis, -1, b, c);
      const high = withSigns(axis, 1, b, c);
      const ring = [corner(low, p), corner(low, q), corner(high, q), corner(high, p)] as [
        Vec,
        Vec,
        Vec,
        Vec,
      ];
      addQuad(solid, b * c > 0 ? ring : (ring.reverse() as [Vec, Vec, Vec, Vec]));
    }
  }
}

function addCorners(solid: Solid, corner: Corner): void {
  for (const x of SIGNS) {
    for (const y of SIGNS) {
      for (const z of SIGNS) {
        const signs: Vec = [x, y, z];
        const tri = [corner(signs, 0), corner(signs, 1), corner(signs, 2)] as [Vec, Vec, Vec];
        addTriangle(solid, x * y * z > 0 ? tri : (tri.reverse() as [Vec, Vec, Vec]));
      }
    }
  }
}
