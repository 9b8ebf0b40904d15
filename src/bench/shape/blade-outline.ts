import { degreesToRadians, type Point, pointAt } from '../../geometry/index.ts';
import type { Blade } from '../schema/index.ts';
import { crackTooth, shapeCrack } from './blade-cracks.ts';
import { toothStands } from './tooth-stand.ts';

/** One tooth, in the blade plane about the arbor axis; angles in radians, counter-clockwise. */
export type Tooth = {
  readonly index: number;
  /** direction of the tip */
  readonly angle: number;
  /** `broken`: its point has snapped off; `missing`: down to a stump */
  readonly state: 'whole' | 'broken' | 'missing';
  /** the cutting point, or the highest point left at the face where there is none */
  readonly tip: Point;
  /** the tooth's own stretch of the outline: the back up to the tip, then down the face */
  readonly back: readonly Point[];
  readonly face: readonly Point[];
};

export type BladeOutline = {
  /** closed outline of the plate, counter-clockwise, mm about the arbor axis */
  readonly outline: readonly Point[];
  readonly teeth: readonly Tooth[];
  /** each crack as a broken line from the edge inward, mm about the arbor axis */
  readonly cracks: readonly (readonly Point[])[];
};

const TURN = 2 * Math.PI;
/** How much of a missing tooth is left standing, as a share of the gullet depth. */
const STUMP = 0.3;
/** How much of a broken tooth's face has gone with its point, as a share of the gullet depth. */
const SNAPPED = 0.48;
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
  const { missingTeeth, broken = [], cracks } = blade.condition;
  const stands = toothStands(blade);
  const teeth = stands.map(({ low }, index) =>
    missingTeeth.includes(index)
      ? shapeStump(blade, index)
      : broken.includes(index)
        ? shapeBroken(blade, index)
        : shapeTooth(blade, index, low),
  );
  const gullets = teeth.map((tooth, i) =>
    shapeGullet(blade, tooth, teeth[(i + 1) % teeth.length] as Tooth),
  );
  const outline = teeth.flatMap((tooth, i) => [
    tooth.tip,
    ...tooth.face,
    ...(gullets[i] as Point[]),
    ...(teeth[(i + 1) % teeth.length] as Tooth).back,
  ]);
  return {
    outline,
    teeth,
    cracks: cracks.map((crack, order) => {
      const at = crackTooth(blade, crack, order);
      return shapeCrack(blade, crack, teeth[at] as Tooth, gullets[at] as Point[]);
    }),
  };
}

/**
 * Where a direction on the blade points once it is mounted, radians: turned round on its spindle, a blade
 * shows its other side and its teeth run the other way.
 */
export const asMounted = (blade: Blade, angle: number): number =>
  blade.mounted === 'backwards' ? Math.PI - angle : angle;

/** Direction of a tooth's tip in the outline, radians. */
export const toothAngle = (teeth: number, index: number): number =>
  Math.PI / 2 + (index * TURN) / teeth;

const rootRadius = (blade: Blade): number => blade.diameter / 2 - blade.gulletDepth;

const ORIGIN: Point = { x: 0, y: 0 };

/** Points on rays behind a tooth's tip: shares of the pitch back, shares of the gullet depth below the tooth circle. */
function behind(
  blade: Blade,
  angle: number,
  places: readonly (readonly [back: number, down: number])[],
): Point[] {
  const pitch = TURN / blade.teeth;
  return places.map(([back, down]) =>
    pointAt(ORIGIN, blade.diameter / 2 - down * blade.gulletDepth, angle - back * pitch),
  );
}

/** Torn, not ground: an uneven top where the tooth broke away. */
function shapeStump(blade: Blade, index: number): Tooth {
  const angle = toothAngle(blade.teeth, index);
  const back = behind(blade, angle, [
    [0.35, 0.78],
    [0.24, 0.6],
    [0.1, 0.78],
  ]);
  const [tip] = behind(blade, angle, [[0, 1 - STUMP]]) as [Point];
  return { index, angle, state: 'missing', tip, back, face: [] };
}

/** The point snapped off across: the foot of its face is left, and a ragged top that falls to the back. */
function shapeBroken(blade: Blade, index: number): Tooth {
  const whole = shapeTooth(blade, index, 0);
  const inward = whole.angle + Math.PI + degreesToRadians(blade.hookAngle);
  const tip = pointAt(whole.tip, faceLength(blade, blade.diameter / 2, SNAPPED), inward);
  const back = behind(blade, whole.angle, [
    [BACK_LENGTH, 0.5],
    [0.3, 0.4],
    [0.2, 0.52],
    [0.1, 0.42],
  ]);
  return { ...whole, state: 'broken', tip, back };
}

function shapeTooth(blade: Blade, index: number, low: number): Tooth {
  const angle = toothAngle(blade.teeth, index);
  const radius = blade.diameter / 2 - low;
  const tip = pointAt(ORIGIN, radius, angle);
  // Inward along the face: straight in, and back against the turn by the hook angle.
  const inward = angle + Math.PI + degreesToRadians(blade.hookAngle);
  const depthShare = blade.condition.gullets === 'square' ? 1 : 0.55;
  const face = pointAt(tip, faceLength(blade, radius, depthShare), inward);
  const back = behind(blade, angle, [[BACK_LENGTH, BACK_FALL]]);
  return { index, angle, state: 'whole', tip, back, face: [face] };
}

/** Length along the face from a tip at `tipRadius` down to `share` of the gullet depth, mm. */
function faceLength(blade: Blade, tipRadius: number, share: number): number {
  const target = blade.diameter / 2 - share * blade.gulletDepth;
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
  const deepest = Math.min(start.angle + DEEPEST_AT * pitch, (start.angle + endAngle) / 2);
  if (blade.condition.gullets === 'square') {
    const corner = start.angle + (endAngle - start.angle) * 0.55;
    return [0, 0.5, 1].map((share) =>
      pointAt(ORIGIN, root, start.angle + (corner - start.angle) * share),
    );
  }
  const down = Array.from({ length: CURVE_STEPS }, (_, i) => {
    const share = (i + 1) / CURVE_STEPS;
    const fall = Math.sqrt(1 - (1 - share) ** 2);
    return pointAt(
      ORIGIN,
      start.radius + (root - start.radius) * fall,
      start.angle + (deepest - start.angle) * share,
    );
  });
  const up = Array.from({ length: CURVE_STEPS - 1 }, (_, i) => {
    const share = (i + 1) / CURVE_STEPS;
    return pointAt(
      ORIGIN,
      root + (end.radius - root) * share * share,
      deepest + (endAngle - deepest) * share,
    );
  });
  return [...down, ...up];
}
