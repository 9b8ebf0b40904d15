import type { Point } from '../../geometry/index.ts';

/** Points round a circle, counter-clockwise. */
export const circle = (x: number, y: number, radius: number, steps = 24): Point[] =>
  Array.from({ length: steps }, (_, i) => {
    const angle = (i * 2 * Math.PI) / steps;
    return { x: x + radius * Math.cos(angle), y: y + radius * Math.sin(angle) };
  });

/** A rectangle with rounded corners, counter-clockwise. */
export function roundedRectangle(
  [x0, y0]: readonly [number, number],
  [x1, y1]: readonly [number, number],
  radius: number,
  steps = 4,
): Point[] {
  const r = Math.min(radius, (x1 - x0) / 2, (y1 - y0) / 2);
  const centres = [
    [x1 - r, y0 + r, -Math.PI / 2],
    [x1 - r, y1 - r, 0],
    [x0 + r, y1 - r, Math.PI / 2],
    [x0 + r, y0 + r, Math.PI],
  ] as const;
  return centres.flatMap(([cx, cy, from]) =>
    Array.from({ length: steps + 1 }, (_, i) => {
      const angle = from + (i * Math.PI) / 2 / steps;
      return { x: cx + r * Math.cos(angle), y: cy + r * Math.sin(angle) };
    }),
  );
}

/** The belt line round two pulleys: a slot shape from centre to centre, counter-clockwise. */
export function slotOutline(a: Point, ra: number, b: Point, rb: number, steps = 12): Point[] {
  const along = Math.atan2(b.y - a.y, b.x - a.x);
  const apart = Math.hypot(b.x - a.x, b.y - a.y);
  const lean = Math.asin(Math.max(-1, Math.min(1, (ra - rb) / apart)));
  const half = (centre: Point, radius: number, from: number, to: number) =>
    Array.from({ length: steps + 1 }, (_, i) => {
      const angle = from + ((to - from) * i) / steps;
      return { x: centre.x + radius * Math.cos(angle), y: centre.y + radius * Math.sin(angle) };
    });
  const quarter = Math.PI / 2;
  return [
    ...half(b, rb, along - quarter + lean, along + quarter - lean),
    ...half(a, ra, along + quarter - lean, along + 3 * quarter + lean),
  ];
}
