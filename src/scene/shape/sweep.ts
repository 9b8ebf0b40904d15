import {
  add,
  addQuad,
  cross,
  emptySolid,
  type Solid,
  scale,
  squareTo,
  subtract,
  unit,
  type Vec,
} from './solid.ts';

/** A round rod or hose bent along a path. */
export function sweep(path: readonly Vec[], radius: number, segments = 12): Solid {
  const solid = emptySolid();
  let side: Vec | null = null;
  const rings = path.map((point, i) => {
    const before = path[Math.max(0, i - 1)] as Vec;
    const after = path[Math.min(path.length - 1, i + 1)] as Vec;
    const along = unit(subtract(after, before));
    // carry the same side along the path so that the skin does not twist
    const across: Vec =
      side === null ? squareTo(along).side : unit(cross(cross(along, side), along));
    side = across;
    const up = cross(along, across);
    return Array.from({ length: segments + 1 }, (_, k) => {
      const angle = (k * 2 * Math.PI) / segments;
      const out = add(scale(across, Math.cos(angle)), scale(up, Math.sin(angle)));
      return { at: add(point, scale(out, radius)), out };
    });
  });
  for (let i = 0; i + 1 < rings.length; i++) {
    for (let k = 0; k < segments; k++) {
      const corner = (ring: number, step: number) =>
        (rings[ring] as { at: Vec; out: Vec }[])[step] as { at: Vec; out: Vec };
      const ring = [
        corner(i, k),
        corner(i, k + 1),
        corner(i + 1, k + 1),
        corner(i + 1, k),
      ] as const;
      addQuad(
        solid,
        ring.map((c) => c.at) as unknown as [Vec, Vec, Vec, Vec],
        ring.map((c) => c.out) as unknown as [Vec, Vec, Vec, Vec],
      );
    }
  }
  return solid;
}

/** A path through corners, each rounded to `radius` by a few steps. */
export function roundedPath(corners: readonly Vec[], radius: number, steps = 6): Vec[] {
  return corners.flatMap((corner, i) => {
    const before = corners[i - 1];
    const after = corners[i + 1];
    if (before === undefined || after === undefined) return [corner];
    const from = add(corner, scale(unit(subtract(before, corner)), radius));
    const to = add(corner, scale(unit(subtract(after, corner)), radius));
    return Array.from({ length: steps + 1 }, (_, k): Vec => {
      const t = k / steps;
      const a = scale(from, (1 - t) ** 2);
      const b = scale(corner, 2 * t * (1 - t));
      return add(add(a, b), scale(to, t * t));
    });
  });
}
