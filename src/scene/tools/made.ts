import type { Material, Mesh, Texture } from 'three';
import type { Piece } from '../shape/pieces.ts';
import {
  add,
  addQuad,
  cross,
  dot,
  emptySolid,
  type Solid,
  subtract,
  unit,
  type Vec,
} from '../shape/solid.ts';

/** An instrument as made: pieces to pour, pictures laid on it, and what must be freed with it. */
export type Made = {
  readonly pieces: Piece[];
  readonly extras: Mesh[];
  readonly owned: (Material | Texture)[];
};

export const makeTool = (): Made => ({ pieces: [], extras: [], owned: [] });

/** A bar from `from` to `to`, as broad as `breadth` and as thick as `thickness`, both from the same edge. */
export function slab(from: Vec, to: Vec, breadth: Vec, thickness: Vec): Solid {
  const solid = emptySolid();
  const along = subtract(to, from);
  const handed = dot(cross(along, breadth), thickness) > 0;
  const [b, t] = handed ? [breadth, thickness] : [thickness, breadth];
  const corner = (i: 0 | 1, j: 0 | 1, k: 0 | 1): Vec =>
    add(from, add(scaled(along, i), add(scaled(b, j), scaled(t, k))));
  addQuad(solid, [corner(0, 0, 0), corner(0, 1, 0), corner(1, 1, 0), corner(1, 0, 0)]);
  addQuad(solid, [corner(0, 0, 1), corner(1, 0, 1), corner(1, 1, 1), corner(0, 1, 1)]);
  addQuad(solid, [corner(0, 0, 0), corner(1, 0, 0), corner(1, 0, 1), corner(0, 0, 1)]);
  addQuad(solid, [corner(0, 1, 0), corner(0, 1, 1), corner(1, 1, 1), corner(1, 1, 0)]);
  addQuad(solid, [corner(0, 0, 0), corner(0, 0, 1), corner(0, 1, 1), corner(0, 1, 0)]);
  addQuad(solid, [corner(1, 0, 0), corner(1, 1, 0), corner(1, 1, 1), corner(1, 0, 1)]);
  return solid;
}

const scaled = (v: Vec, by: number): Vec => [v[0] * by, v[1] * by, v[2] * by];

/** `a` with what it has along `b` taken out, at unit length. */
export const squared = (a: Vec, b: Vec): Vec => unit(subtract(a, scaled(b, dot(a, b))));
