import { type Blade, type BladeOutline, type Tooth, toothStands } from '../../bench/index.ts';
import type { Point } from '../../geometry/index.ts';

/** One tooth cut free of the body: a closed loop from gullet floor up over the tip and down again. */
export type ToothLoop = {
  readonly index: number;
  readonly state: Tooth['state'];
  /** counter-clockwise, mm about the arbor axis */
  readonly points: readonly Point[];
  /** where in `points` the tip stands; the points before it are the back, those after the face */
  readonly tipAt: number;
  /** the last point of `points` on the blade's outline; those after it lie on the root circle inside */
  readonly faceEnd: number;
  /** mm the tip stands over to one side, signed along z */
  readonly set: number;
};

export type TeethAndBody = {
  readonly teeth: readonly ToothLoop[];
  /** the body below the gullets, counter-clockwise */
  readonly body: readonly Point[];
  /** the floor of each gullet: one point when it is round, several when it is flat */
  readonly floors: readonly (readonly Point[])[];
};

const radiusOf = (p: Point): number => Math.hypot(p.x, p.y);
const angleOf = (p: Point): number => Math.atan2(p.y, p.x);

/**
 * Splits the outline at the gullet floors, so that each tooth can be bent over for its set while the
 * body stays flat.
 */
export function splitTeeth(blade: Blade, { outline, teeth }: BladeOutline): TeethAndBody {
  const root = blade.diameter / 2 - blade.gulletDepth;
  const starts = teeth.map((tooth) => outline.indexOf(tooth.tip));
  const count = teeth.length;
  const floors = starts.map((start, i) => {
    const next = i + 1 < count ? (starts[i + 1] as number) : outline.length;
    const stretch = outline.slice(start, next);
    const least = Math.min(...stretch.map(radiusOf));
    const onFloor = stretch.filter((p) => radiusOf(p) <= Math.max(least, root) + 1e-6);
    return onFloor.length > 0 ? onFloor : [stretch[stretch.length - 1] as Point];
  });
  const stands = toothStands(blade);
  const body: Point[] = [];
  const loops = teeth.map((tooth, i): ToothLoop => {
    const before = floors[(i + count - 1) % count] as Point[];
    const after = floors[i] as Point[];
    const up = before[before.length - 1] as Point;
    const down = after[0] as Point;
    const base = arcBetween(up, down, root);
    body.push(up, ...base, ...after.slice(0, -1));
    const stretch = walk(outline, up, down);
    return {
      index: tooth.index,
      state: tooth.state,
      points: [...stretch, ...base.toReversed()],
      tipAt: stretch.indexOf(tooth.tip),
      faceEnd: stretch.length - 1,
      set: tooth.state === 'missing' ? 0 : (stands[i]?.set ?? 0),
    };
  });
  return { teeth: loops, body, floors };
}

/** The outline from one of its points on to another, both included. */
function walk(outline: readonly Point[], from: Point, to: Point): Point[] {
  const start = outline.indexOf(from);
  const length = (outline.indexOf(to) - start + outline.length) % outline.length;
  return Array.from(
    { length: length + 1 },
    (_, i) => outline[(start + i) % outline.length] as Point,
  );
}

/** Points on the root circle between two floor points, so that a wide tooth keeps a round base. */
function arcBetween(from: Point, to: Point, root: number): Point[] {
  const start = angleOf(from);
  const turn = (angleOf(to) - start + 4 * Math.PI) % (2 * Math.PI);
  const steps = Math.floor(turn / (Math.PI / 18));
  return Array.from({ length: steps }, (_, i) => {
    const angle = start + (turn * (i + 1)) / (steps + 1);
    return { x: root * Math.cos(angle), y: root * Math.sin(angle) };
  });
}

/** How far a point at `radius` is carried over when its tooth's tip is set over by `set`. */
export function bendAt(blade: Blade, set: number, radius: number): number {
  const tip = blade.diameter / 2;
  const bend = tip - 0.6 * blade.gulletDepth;
  return set * Math.min(1, Math.max(0, (radius - bend) / (tip - bend)));
}
