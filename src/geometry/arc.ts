import { directionFrom, distance, type Point, pointAt } from './point.ts';

/**
 * A circular arc from angle `from` up to angle `to`, counter-clockwise about `centre`.
 * Angles are radians with `from <= to` and `to - from <= 2 pi`.
 */
export type Arc = {
  readonly centre: Point;
  readonly radius: number;
  readonly from: number;
  readonly to: number;
};

const TURN = 2 * Math.PI;

/** Whether the arc passes through direction `angle` from its centre. */
export function arcCovers(arc: Arc, angle: number): boolean {
  const turned = (((angle - arc.from) % TURN) + TURN) % TURN;
  return turned <= arc.to - arc.from;
}

/**
 * Least and greatest distance from a point to an arc, in closed form. On the arc the distance is
 * monotone between the direction of the point and its opposite, so the extremes lie at the two
 * ends or where the line through the point and the centre meets the arc.
 */
export function arcDistanceRange(arc: Arc, point: Point): { least: number; greatest: number } {
  const offset = distance(arc.centre, point);
  const first = distance(point, pointAt(arc.centre, arc.radius, arc.from));
  const last = distance(point, pointAt(arc.centre, arc.radius, arc.to));
  let least = Math.min(first, last);
  let greatest = Math.max(first, last);
  if (offset > 0) {
    const toward = directionFrom(arc.centre, point);
    if (arcCovers(arc, toward)) least = Math.abs(arc.radius - offset);
    if (arcCovers(arc, toward + Math.PI)) greatest = arc.radius + offset;
  }
  return { least, greatest };
}

/** `count + 1` points evenly spaced along the arc, both ends included. */
export function arcPoints(arc: Arc, count: number): Point[] {
  return Array.from({ length: count + 1 }, (_, i) =>
    pointAt(arc.centre, arc.radius, arc.from + ((arc.to - arc.from) * i) / count),
  );
}

/** Half the chord a circle of `radius` shows at `height` from its centre; NaN when it misses. */
export const halfChord = (radius: number, height: number): number =>
  Math.sqrt(radius * radius - height * height);
