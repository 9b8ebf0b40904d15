import { degreesToRadians, type Point, pointAt } from '../../geometry/index.ts';
import type { Blade } from '../schema/index.ts';

/** One tooth, in the blade plane about the arbor axis; angles in radians, counter-clockwise. */
export type Tooth = {
  readonly index: number;
  /** direction of the tip */
  readonly angle: number;
  readonly missing: boolean;
  /** the cutting point, or the stump's top when the tooth is missing */
  readonly tip: Point;
  /** the tooth's own stretch of the outline: the back up to the tip, then down the face */
  readonly back: readonly Point[];
  readonly face: readonly Point[];
};

export type BladeOutline = {
  /** closed outline of the plate, counter-clockwise, mm about the arbor axis */
  readonly outline: readonly Point[];
  readonly teeth: readonly Tooth[];
  /** radius of each crack as a broken line from the edge inward, mm about the arbor axis */
  readonly cracks: readonly (readonly Point[])[];
};

const TURN = 2 * Math.PI;
/** How much of a missing tooth is left standing, as a share of the gullet depth. */
const STUMP = 0.3;
/** Fall of the back behind the tip, as a share of the gullet depth at the end of the straight back. */
const BACK_FALL = 0.35;
/** How far the straight back reaches, and where the gullet is deepest, as shares of the tooth pitch. */
const BACK_LENGTH = 0.42;
const DEEPEST_AT = 0.22;
const CURVE_STEPS = 5;

/**
 * The blade as it looks from the fence side: exact tooth count, hook, gullet depth and shape.
 * The blade turns counter-clockwise in this view, so each face looks along increasing angle.
 * The first tooth stands straight up; turn the points about the axis to spin the blade.
 */
export function bladeOutline(blade: Blade): BladeOutline {
  const missing = new Set(blade.condition.missingTeeth);
  const teeth = Array.from({ length: blade.teeth }, (_, index) =>
    shapeTooth(blade, index, missing.has(index)),
  );
  const outline = teeth.flatMap((tooth, index) => {
    const next = teeth[(index + 1) % teeth.length] as Tooth;
    return [tooth.tip, ...tooth.face, ...shapeGullet(blade, tooth, next), ...next.back];
  });
  const cracks = blade.condition.cracks.map((crack, order) => shapeCrack(blade, crack, order));
  return { outline, teeth, cracks };
}

/** Direction of a tooth's tip in the outline, radians. */
export const toothAngle = (teeth: number, index: number): number =>
  Math.PI / 2 + (index * TURN) / teeth;

const rootRadius = (blade: Blade): number => blade.diameter / 2 - blade.gulletDepth;

function shapeTooth(blade: Blade, index: number, isMissing: boolean): Tooth {
  const tipRadius = blade.diameter / 2;
  const pitch = TURN / blade.teeth;
  const angle = toothAngle(blade.teeth, index);
  const root = rootRadius(blade);
  if (isMissing) {
    const top = root + STUMP * blade.gulletDepth;
    // torn, not ground: an uneven top where the tooth broke away
    const ragged = [0.35, 0.24, 0.1].map((share, i) =>
      pointAt(
        { x: 0, y: 0 },
        top + (i % 2 === 0 ? -0.08 : 0.1) * blade.gulletDepth,
        angle - share * pitch,
      ),
    );
    const tip = pointAt({ x: 0, y: 0 }, top, angle);
    return { index, angle, missing: true, tip, back: ragged, face: [] };
  }
  const tip = pointAt({ x: 0, y: 0 }, tipRadius, angle);
  const backEnd = pointAt(
    { x: 0, y: 0 },
    tipRadius - BACK_FALL * blade.gulletDepth,
    angle - BACK_LENGTH * pitch,
  );
  // Inward along the face: straight in, and back against the turn by the hook angle.
  const inward = angle + Math.PI + degreesToRadians(blade.hookAngle);
  const depthShare = blade.condition.gullets === 'square' ? 1 : 0.55;
  const face = pointAt(tip, faceLength(blade, depthShare), inward);
  return { index, angle, missing: false, tip, back: [backEnd], face: [face] };
}

/** Length along the face from the tip down to `share` of the gullet depth, mm. */
function faceLength(blade: Blade, share: number): number {
  const tipRadius = blade.diameter / 2;
  const target = tipRadius - share * blade.gulletDepth;
  const hook = degreesToRadians(blade.hookAngle);
  // |tip + s * inward|^2 = target^2 with the tip at distance R: s^2 - 2 R s cos(hook) + R^2 - target^2 = 0
  const half = tipRadius * Math.cos(hook);
  return half - Math.sqrt(Math.max(0, half * half - tipRadius * tipRadius + target * target));
}

const polar = (point: Point) => ({
  radius: Math.hypot(point.x, point.y),
  angle: Math.atan2(point.y, point.x),
});

/** Angle `to` as the first one at or after `from`. */
const onwardFrom = (from: number, to: number): number =>
  from + ((((to - from) % TURN) + TURN) % TURN);

function shapeGullet(blade: Blade, tooth: Tooth, next: Tooth): Point[] {
  const root = rootRadius(blade);
  const pitch = TURN / blade.teeth;
  const start = polar(tooth.face[tooth.face.length - 1] ?? tooth.tip);
  const end = polar(next.back[0] ?? next.tip);
  const endAngle = onwardFrom(start.angle, end.angle);
  const origin = { x: 0, y: 0 };
  const deepest = Math.min(start.angle + DEEPEST_AT * pitch, (start.angle + endAngle) / 2);
  if (blade.condition.gullets === 'square') {
    const corner = start.angle + (endAngle - start.angle) * 0.55;
    return [0, 0.5, 1].map((share) =>
      pointAt(origin, root, start.angle + (corner - start.angle) * share),
    );
  }
  const down = Array.from({ length: CURVE_STEPS }, (_, i) => {
    const share = (i + 1) / CURVE_STEPS;
    const fall = Math.sqrt(1 - (1 - share) ** 2);
    return pointAt(
      origin,
      start.radius + (root - start.radius) * fall,
      start.angle + (deepest - start.angle) * share,
    );
  });
  const up = Array.from({ length: CURVE_STEPS - 1 }, (_, i) => {
    const share = (i + 1) / CURVE_STEPS;
    return pointAt(
      origin,
      root + (end.radius - root) * share * share,
      deepest + (endAngle - deepest) * share,
    );
  });
  return [...down, ...up];
}

/**
 * The tooth a crack of the blade starts at, counted from 0. Those without a stated place are spread
 * round the rim, never all in a row.
 */
export const crackTooth = (blade: Blade, { tooth }: Crack, order: number): number =>
  (tooth ?? 3 + order * 7) % blade.teeth;

type Crack = Blade['condition']['cracks'][number];

/** mm, half the usual bore of a bench's blade (30 mm, common practice, no source). */
const BORE_RADIUS = 15;
const CRACK_STEPS = 6;
/** How far a crack wanders to either side as it runs, as a share of its length. */
const WANDER = 0.06;

function shapeCrack(blade: Blade, crack: Crack, order: number): Point[] {
  const { radius, past } = crackStart(blade, crack.at);
  const angle =
    toothAngle(blade.teeth, crackTooth(blade, crack, order)) + past * (TURN / blade.teeth);
  const [way, room] =
    crack.at === 'bore' ? [1, rootRadius(blade) - radius] : [-1, radius - BORE_RADIUS];
  const length = Math.min(crack.length, room);
  return Array.from({ length: CRACK_STEPS + 1 }, (_, i) => {
    const at = radius + (way * length * i) / CRACK_STEPS;
    const aside = i === 0 ? 0 : (-1) ** i * WANDER * length;
    return pointAt({ x: 0, y: 0 }, at, angle + aside / at);
  });
}

/** Where a crack starts: mm from the axis, and shares of the pitch past its tooth's tip. */
function crackStart(blade: Blade, at: Crack['at']): { radius: number; past: number } {
  switch (at) {
    case 'gullet':
      return { radius: rootRadius(blade), past: DEEPEST_AT };
    case 'rim':
      // half way along the back of the tooth
      return {
        radius: blade.diameter / 2 - (BACK_FALL / 2) * blade.gulletDepth,
        past: -BACK_LENGTH / 2,
      };
    case 'bore':
      return { radius: BORE_RADIUS, past: DEEPEST_AT };
  }
}
