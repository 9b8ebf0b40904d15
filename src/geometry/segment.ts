import { distance, type Point } from './point.ts';

export type Segment = { readonly from: Point; readonly to: Point };

/** Least distance from a point to a segment. A segment of no length counts as its point. */
export function distanceToSegment(point: Point, { from, to }: Segment): number {
  const dx = to.x - from.x;
  const dy = to.y - from.y;
  const lengthSquared = dx * dx + dy * dy;
  if (lengthSquared === 0) return distance(point, from);
  const along = ((point.x - from.x) * dx + (point.y - from.y) * dy) / lengthSquared;
  const clamped = Math.min(1, Math.max(0, along));
  return distance(point, { x: from.x + clamped * dx, y: from.y + clamped * dy });
}
