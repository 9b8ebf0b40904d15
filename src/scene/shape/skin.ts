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

type Four<T> = readonly [T, T, T, T];

/**
 * A smooth skin over closed loops of as many points each, one after another along a body. Loops run
 * counter-clockwise seen against the way they follow each other; a loop drawn to a point closes an end.
 */
export function skin(loops: readonly (readonly Vec[])[]): Solid {
  const count = (loops[0] as readonly Vec[]).length;
  const at = (i: number, k: number): Vec =>
    (loops[i] as readonly Vec[])[((k % count) + count) % count] as Vec;
  const facet = (i: number, k: number): Vec =>
    i < 0 || i + 1 >= loops.length
      ? [0, 0, 0]
      : cross(subtract(at(i + 1, k + 1), at(i, k)), subtract(at(i + 1, k), at(i, k + 1)));
  const normal = (i: number, k: number): Vec =>
    unit(
      [facet(i, k), facet(i, k - 1), facet(i - 1, k), facet(i - 1, k - 1)].reduce<Vec>(
        add,
        [0, 0, 0],
      ),
    );
  const normals = loops.map((_, i) => Array.from({ length: count }, (_, k) => normal(i, k)));
  const solid = emptySolid();
  for (let i = 0; i + 1 < loops.length; i++) {
    for (let k = 0; k < count; k++) {
      const corners = [
        [i, k],
        [i, k + 1],
        [i + 1, k + 1],
        [i + 1, k],
      ] as const;
      addQuad(
        solid,
        corners.map(([r, c]) => at(r, c)) as unknown as Four<Vec>,
        corners.map(([r, c]) => normals[r]?.[c % count]) as unknown as Four<Vec>,
      );
    }
  }
  return solid;
}

/** A level oval of a body: height, middle in x, half its depth in x, half its breadth in z. */
export type Oval = readonly [y: number, x: number, depth: number, breadth: number];

/** A body of level ovals from the bottom up, closed at both ends. */
export function stacked(ovals: readonly Oval[], z = 0, steps = 20): Solid {
  const first = ovals[0] as Oval;
  const last = ovals.at(-1) as Oval;
  const closed: Oval[] = [[first[0], first[1], 0, 0], ...ovals, [last[0], last[1], 0, 0]];
  return skin(
    closed.map(([y, x, depth, breadth]) =>
      Array.from({ length: steps }, (_, k): Vec => {
        const turn = (k * 2 * Math.PI) / steps;
        return [x + depth * Math.sin(turn), y, z + breadth * Math.cos(turn)];
      }),
    ),
  );
}

/** A limb: round all along, of a radius of its own at each point, with rounded ends. */
export function limb(points: readonly (readonly [Vec, number])[], steps = 14): Solid {
  const [a, ra] = points[0] as readonly [Vec, number];
  const [b, rb] = points.at(-1) as readonly [Vec, number];
  const back = unit(subtract(a, (points[1] as readonly [Vec, number])[0]));
  const on = unit(subtract(b, (points.at(-2) as readonly [Vec, number])[0]));
  const path: (readonly [Vec, number])[] = [
    [add(a, scale(back, ra)), 0],
    [add(a, scale(back, ra * 0.7)), ra * 0.71],
    ...points,
    [add(b, scale(on, rb * 0.7)), rb * 0.71],
    [add(b, scale(on, rb)), 0],
  ];
  let side: Vec | null = null;
  return skin(
    path.map(([point, radius], i) => {
      const before = (path[Math.max(0, i - 1)] as readonly [Vec, number])[0];
      const after = (path[Math.min(path.length - 1, i + 1)] as readonly [Vec, number])[0];
      const along = unit(subtract(after, before));
      const across: Vec =
        side === null ? squareTo(along).side : unit(cross(cross(along, side), along));
      side = across;
      const up = cross(along, across);
      return Array.from({ length: steps }, (_, k): Vec => {
        const turn = (k * 2 * Math.PI) / steps;
        return add(
          point,
          add(scale(across, radius * Math.cos(turn)), scale(up, radius * Math.sin(turn))),
        );
      });
    }),
  );
}
