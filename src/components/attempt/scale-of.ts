/** Where a value stands against its limit, as shares 0..1 of a drawn scale. */
export type Scale = {
  /** the part inside the limit, from and to */
  readonly inside: { readonly from: number; readonly to: number };
  readonly value: number;
  /** the ends of the limit that exist, for their ticks */
  readonly ends: readonly number[];
};

/**
 * Lays a limit and a value out on one scale, with room on both sides, so that near and far look so.
 * @returns null when there is nothing to draw: no number, or no end
 */
export function scaleOf(
  value: number,
  limit: { readonly min?: number | null | undefined; readonly max?: number | null | undefined },
): Scale | null {
  const ends = [limit.min, limit.max].filter((end) => typeof end === 'number');
  if (ends.length === 0 || !Number.isFinite(value)) return null;
  const points = [...ends, value];
  // a limit "above nought" gets nought itself as its end; a lone point still needs some width
  const least = Math.min(...points);
  const most = Math.max(...points);
  const room = Math.max((most - least) * 0.25, Math.abs(most) * 0.15, 1e-3);
  const from = least - room;
  const width = most + room - from;
  const place = (at: number): number => (at - from) / width;
  return {
    inside: {
      from: typeof limit.min === 'number' ? place(limit.min) : 0,
      to: typeof limit.max === 'number' ? place(limit.max) : 1,
    },
    value: place(value),
    ends: ends.map(place),
  };
}
