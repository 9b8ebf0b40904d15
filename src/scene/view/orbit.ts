import { PerspectiveCamera, Vector3 } from 'three';

/** Where the eye is, as a point it looks at and a direction and distance from it. Radians and metres. */
export type Pose = {
  readonly target: readonly [number, number, number];
  /** round the upright axis; 0 looks from +z, growing toward +x */
  readonly azimuth: number;
  /** above the level */
  readonly elevation: number;
  readonly distance: number;
};

/** What the eye keeps out of and inside of, metres. */
export type Bounds = {
  /** the table, as a slab: x from, x to, half its breadth */
  readonly table: { readonly from: number; readonly to: number; readonly half: number };
  readonly floor: number;
  readonly room: {
    readonly x0: number;
    readonly x1: number;
    readonly z0: number;
    readonly z1: number;
  };
};

const NEAREST = 0.11;
const FARTHEST = 6.2;
/** How far above the table top, and below its underside, the eye is kept, m. */
const OVER = 0.022;
const UNDER = -0.2;

export const eyeOf = ({ target, azimuth, elevation, distance }: Pose): [number, number, number] => [
  target[0] + distance * Math.cos(elevation) * Math.sin(azimuth),
  target[1] + distance * Math.sin(elevation),
  target[2] + distance * Math.cos(elevation) * Math.cos(azimuth),
];

const clamp = (value: number, low: number, high: number): number =>
  Math.min(high, Math.max(low, value));

/**
 * The nearest pose that keeps the eye out of the table and inside the workshop, so that a person can
 * turn as they like and never be lost.
 */
export function keepInSight(pose: Pose, bounds: Bounds): Pose {
  const { table, floor } = bounds;
  const target = [
    clamp(pose.target[0], table.from - 0.35, table.to + 0.2),
    clamp(pose.target[1], floor + 0.12, 0.85),
    clamp(pose.target[2], -table.half - 0.3, table.half + 0.3),
  ] as const;
  let kept: Pose = {
    target,
    azimuth: pose.azimuth,
    elevation: clamp(pose.elevation, -1.35, 1.54),
    distance: clamp(pose.distance, NEAREST, FARTHEST),
  };
  kept = shorten(kept, bounds);
  const [x, y, z] = eyeOf(kept);
  const overTable = x > table.from - 0.08 && x < table.to + 0.08 && Math.abs(z) < table.half + 0.08;
  if (overTable && y < OVER && y > UNDER) {
    const height = target[1] > -0.05 ? OVER : UNDER;
    kept = { ...kept, elevation: elevationTo(height - target[1], kept.distance) };
  }
  return kept;
}

const elevationTo = (rise: number, distance: number): number =>
  Math.asin(clamp(rise / distance, -0.97, 0.999));

/** Brings the eye in along its own line until it is inside the walls and above the floor. */
function shorten(pose: Pose, { floor, room }: Bounds): Pose {
  const eye = eyeOf(pose);
  const { target } = pose;
  const share = [
    limit(target[0], eye[0], room.x0 + 0.15, room.x1 - 0.15),
    limit(target[1], eye[1], floor + 0.08, floor + 2.85),
    limit(target[2], eye[2], room.z0 + 0.15, room.z1 - 0.15),
  ].reduce((least, one) => Math.min(least, one), 1);
  return share < 1 ? { ...pose, distance: Math.max(NEAREST, pose.distance * share) } : pose;
}

/** How far from `from` toward `to`, 0..1, before leaving [low, high]. */
function limit(from: number, to: number, low: number, high: number): number {
  if (to > high) return Math.max(0, (high - from) / (to - from));
  if (to < low) return Math.max(0, (low - from) / (to - from));
  return 1;
}

export const FIELD_OF_VIEW = 32;

export function createEye(): PerspectiveCamera {
  return new PerspectiveCamera(FIELD_OF_VIEW, 1, 0.03, 14);
}

const lookTarget = new Vector3();

export function setEye(camera: PerspectiveCamera, pose: Pose): void {
  camera.position.set(...eyeOf(pose));
  camera.lookAt(lookTarget.set(...pose.target));
  camera.updateMatrixWorld();
}

/** Distance at which a subject of this half-size fills the picture, whatever its shape. */
export function distanceToFit(half: { width: number; height: number }, aspect: number): number {
  const slope = Math.tan((FIELD_OF_VIEW * Math.PI) / 360);
  return Math.max(half.height / slope, half.width / (slope * aspect));
}

/** Part of the way from one pose to another, 0..1, swinging the short way round and clear of the table. */
export function between(from: Pose, to: Pose, share: number): Pose {
  const mix = (a: number, b: number): number => a + (b - a) * share;
  const turn =
    ((((to.azimuth - from.azimuth + Math.PI) % (2 * Math.PI)) + 2 * Math.PI) % (2 * Math.PI)) -
    Math.PI;
  const crossing = Math.sign(from.elevation) !== Math.sign(to.elevation) ? 0.9 : 0;
  return {
    target: [
      mix(from.target[0], to.target[0]),
      mix(from.target[1], to.target[1]),
      mix(from.target[2], to.target[2]),
    ],
    azimuth: from.azimuth + turn * share,
    elevation: mix(from.elevation, to.elevation),
    distance: mix(from.distance, to.distance) + crossing * Math.sin(Math.PI * share),
  };
}
