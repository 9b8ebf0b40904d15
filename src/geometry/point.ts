/** A point in a plane; for the bench, `x` along the feed and `y` up, in millimetres. */
export type Point = { readonly x: number; readonly y: number };

export const distance = (a: Point, b: Point): number => Math.hypot(a.x - b.x, a.y - b.y);

/** The point at `radius` from `centre` in direction `angle` (radians, counter-clockwise from +x). */
export const pointAt = (centre: Point, radius: number, angle: number): Point => ({
  x: centre.x + radius * Math.cos(angle),
  y: centre.y + radius * Math.sin(angle),
});

/** Direction of `point` seen from `centre`: radians in (-pi, pi]. */
export const directionFrom = (centre: Point, point: Point): number =>
  Math.atan2(point.y - centre.y, point.x - centre.x);
