/**
 * mm a light curtain must stand from the danger, ISO 13855: S = K T + C with C = 8 (d - 14), not
 * under 0. K is 2000 mm/s; where that gives more than 500 mm, 1600 mm/s may be used, and then not
 * less than 500.
 * @param time s, overall stopping time  @param resolution mm, up to 40
 */
export function separationDistance(time: number, resolution: number): number {
  const intrusion = Math.max(0, 8 * (resolution - 14));
  const fast = 2000 * time + intrusion;
  if (fast <= 500) return Math.max(100, fast);
  return Math.max(500, 1600 * time + intrusion);
}
