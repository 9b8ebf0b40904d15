import {
  add,
  addQuad,
  emptySolid,
  type Solid,
  scale,
  squareTo,
  subtract,
  unit,
  type Vec,
} from './solid.ts';

/** Distance along the axis and radius there, mm. */
export type ProfilePoint = readonly [along: number, radius: number];

/**
 * A turned piece: a profile spun about an axis. Round it is smooth; each step of the profile is crisp,
 * except where three or more points follow a curve (`smooth`).
 */
export function turned(
  origin: Vec,
  direction: Vec,
  profile: readonly ProfilePoint[],
  options: { segments?: number; smooth?: 'profile' } = {},
): Solid {
  const segments = options.segments ?? 24;
  const axis = unit(direction);
  const { side, up } = squareTo(axis);
  const solid = emptySolid();
  const slopes = profile.slice(1).map(([a1, r1], i) => {
    const [a0, r0] = profile[i] as ProfilePoint;
    // the outward normal of a profile step, as (along, out)
    const length = Math.hypot(a1 - a0, r1 - r0) || 1;
    return [-(r1 - r0) / length, (a1 - a0) / length] as const;
  });
  const normalAt = (step: number, end: 0 | 1): readonly [number, number] => {
    const own = slopes[step] as readonly [number, number];
    const other = slopes[end === 0 ? step - 1 : step + 1];
    if (options.smooth !== 'profile' || other === undefined) return own;
    return [(own[0] + other[0]) / 2, (own[1] + other[1]) / 2];
  };
  const ringOut = Array.from({ length: segments + 1 }, (_, i) => {
    const angle = ((i % segments) * 2 * Math.PI) / segments;
    return add(scale(side, Math.cos(angle)), scale(up, Math.sin(angle)));
  });
  for (let step = 0; step + 1 < profile.length; step++) {
    const [a0, r0] = profile[step] as ProfilePoint;
    const [a1, r1] = profile[step + 1] as ProfilePoint;
    const [n0, n1] = [normalAt(step, 0), normalAt(step, 1)];
    for (let i = 0; i < segments; i++) {
      const [u, v] = [ringOut[i] as Vec, ringOut[i + 1] as Vec];
      const at = (along: number, radius: number, out: Vec) =>
        add(origin, add(scale(axis, along), scale(out, radius)));
      const normal = (n: readonly [number, number], out: Vec) =>
        unit(add(scale(axis, n[0]), scale(out, n[1])));
      addQuad(
        solid,
        [at(a0, r0, u), at(a0, r0, v), at(a1, r1, v), at(a1, r1, u)],
        [normal(n0, u), normal(n0, v), normal(n1, v), normal(n1, u)],
      );
    }
  }
  return solid;
}

/** A round bar from one point to another, its ends broken by a small chamfer. */
export function bar(from: Vec, to: Vec, radius: number, segments = 20): Solid {
  const along = subtract(to, from);
  const length = Math.hypot(...along);
  const cut = Math.min(radius * 0.15, 1.5, length / 3);
  return turned(
    from,
    along,
    [
      [0, 0],
      [0, radius - cut],
      [cut, radius],
      [length - cut, radius],
      [length, radius - cut],
      [length, 0],
    ],
    { segments },
  );
}

/** A ball, for the ends of levers. */
export function ball(centre: Vec, radius: number, segments = 16): Solid {
  const steps = segments / 2;
  const profile = Array.from({ length: steps + 1 }, (_, i): ProfilePoint => {
    const angle = (i * Math.PI) / steps;
    return [-radius * Math.cos(angle), radius * Math.sin(angle)];
  });
  return turned(centre, [0, 1, 0], profile, { segments, smooth: 'profile' });
}

/** A six-sided nut or bolt head standing on `origin`, `across` mm over its flats. */
export function hexagon(origin: Vec, direction: Vec, across: number, height: number): Solid {
  const radius = across / Math.sqrt(3);
  const solid = turned(
    origin,
    direction,
    [
      [0, 0],
      [0, radius],
      [height * 0.86, radius],
      [height, radius * 0.86],
      [height, 0],
    ],
    { segments: 6 },
  );
  return flattened(solid);
}

/** Each triangle its own plane: for pieces with flats. */
export function flattened(solid: Solid): Solid {
  const flat = emptySolid();
  const { positions } = solid;
  for (let i = 0; i < positions.length; i += 9) {
    const at = (k: number): Vec => [
      positions[i + k] as number,
      positions[i + k + 1] as number,
      positions[i + k + 2] as number,
    ];
    const [a, b, c] = [at(0), at(3), at(6)];
    const n = unit(crossOf(subtract(b, a), subtract(c, a)));
    flat.positions.push(...a, ...b, ...c);
    flat.normals.push(...n, ...n, ...n);
  }
  return flat;
}

const crossOf = (a: Vec, b: Vec): Vec => [
  a[1] * b[2] - a[2] * b[1],
  a[2] * b[0] - a[0] * b[2],
  a[0] * b[1] - a[1] * b[0],
];
