import { type Arc, arcDistanceRange, pointAt } from '../../geometry/index.ts';

/** How near the teeth a knife edge must stand to count as covering them (JP notification 86/1972 art 14). */
const COVERING_GAP = 12;

export type KnifeGaps = {
  /** mm from the tooth circle: greatest, least, and where the edge meets the table */
  readonly max: number;
  readonly min: number;
  readonly atTable: number;
};

/**
 * The gap between the tooth circle and the knife's leading edge, measured radially, in closed form.
 * @param edge the leading edge from the table up to the tip
 * @param axis the arbor axis, mm
 * @param radius of the tooth circle, mm. A gap at or below 0 means the knife fouls the blade.
 */
export function knifeGaps(edge: Arc, axis: { x: number; y: number }, radius: number): KnifeGaps {
  const { least, greatest } = arcDistanceRange(edge, axis);
  const foot = pointAt(edge.centre, edge.radius, edge.from);
  return {
    max: greatest - radius,
    min: least - radius,
    atTable: Math.hypot(foot.x - axis.x, foot.y - axis.y) - radius,
  };
}

/**
 * Share of the rear tooth arc, from the table to the top of the blade, over which the knife edge
 * stands within 12 mm of the teeth: 0 to 1, by angle at the arbor axis.
 *
 * The axis lies inside the edge circle (the schema sees to it), so as a point runs up the edge its
 * direction from the axis only ever turns one way, and a stretch of edge is a stretch of angle.
 */
export function knifeArcShare(edge: Arc, axis: { x: number; y: number }, radius: number): number {
  const atTable = Math.asin(-axis.y / radius);
  const atTop = Math.PI / 2;
  const covered = stretchesWithin(edge, axis, radius + COVERING_GAP).reduce((sum, [from, to]) => {
    const low = Math.max(atTable, directionOf(edge, axis, from));
    const high = Math.min(atTop, directionOf(edge, axis, to));
    return sum + Math.max(0, high - low);
  }, 0);
  return covered / (atTop - atTable);
}

function directionOf(edge: Arc, axis: { x: number; y: number }, angle: number): number {
  const point = pointAt(edge.centre, edge.radius, angle);
  return Math.atan2(point.y - axis.y, point.x - axis.x);
}

/** The stretches of the edge, as angles at its centre, that lie within `reach` of the axis. */
function stretchesWithin(
  edge: Arc,
  axis: { x: number; y: number },
  reach: number,
): [number, number][] {
  const dx = edge.centre.x - axis.x;
  const dy = edge.centre.y - axis.y;
  const offset = Math.hypot(dx, dy);
  if (offset === 0) return edge.radius <= reach ? [[edge.from, edge.to]] : [];
  // |P - axis|^2 = offset^2 + r^2 + 2 offset r cos(angle - away): too far only round `away`
  const cosine =
    (reach * reach - offset * offset - edge.radius * edge.radius) / (2 * offset * edge.radius);
  if (cosine >= 1) return [[edge.from, edge.to]];
  if (cosine <= -1) return [];
  const away = Math.atan2(dy, dx);
  const half = Math.acos(cosine);
  // The near stretch runs from away + half round to away - half; the edge spans less than a half turn.
  return [-1, 0, 1].flatMap((turn): [number, number][] => {
    const from = Math.max(edge.from, away + half + (turn - 1) * 2 * Math.PI);
    const to = Math.min(edge.to, away - half + turn * 2 * Math.PI);
    return from < to ? [[from, to]] : [];
  });
}
