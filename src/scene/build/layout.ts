import { type Bench, bladeFrame } from '../../bench/index.ts';
import { degreesToRadians } from '../../geometry/index.ts';

/**
 * Where the pieces of this one machine stand, mm in the bench frame, worked out from the bench.
 * What a hand can set is taken from the bench as it is; what is bolted down follows from the size of
 * the machine alone, so that it stays put while things are moved.
 */
export type Layout = {
  readonly tipRadius: number;
  readonly rootRadius: number;
  readonly depth: number;
  readonly halfAtTable: number;
  readonly projection: number;
  /** top of the floor */
  readonly floor: number;
  /** z of both table edges, from the blade */
  readonly halfWidth: number;
  /** x of both ends of the main casting; the rest of the outfeed is an extension */
  readonly tableFront: number;
  readonly tableRear: number;
  /** x of the far edge of the whole table */
  readonly outfeed: number;
  /** mouth for the insert: x from, x to, and half its breadth */
  readonly mouth: { readonly from: number; readonly to: number; readonly half: number };
  /** half width of the crown guard over its sides */
  readonly hoodHalf: number;
  /** mm from the hood's lower rim up to the underside of its roof */
  readonly hoodDepth: number;
  /** y of the hood's lower rim: as set, or riding on the stock */
  readonly hoodRim: number;
  /** z of the fence face at the front teeth, and its turn about y (radians, positive opens) */
  readonly fenceFace: number;
  readonly fenceTurn: number;
  /** radians the blade leans, about x */
  readonly tilt: number;
};

/** Depth of the main table casting at its rim, mm. */
export const TABLE_THICKNESS = 44;

export function layoutOf(bench: Bench): Layout {
  const { tipRadius, rootRadius, depth, halfAtTable, stock } = bladeFrame(bench);
  const { table, arbor, blade, insert, guard, fence } = bench;
  const largest = arbor.largestBlade / 2;
  const reach = Math.max(tipRadius, Math.min(largest, 600));
  const wanted = reach + 395;
  const tableRear = table.outfeed - wanted < 220 ? table.outfeed : wanted;
  const projection = tipRadius - depth;
  const rides =
    guard !== null &&
    !guard.stuck &&
    (guard.kind === 'self-closing' || guard.kind === 'counterweighted');
  const hoodRim = guard === null ? 0 : rides ? stock : guard.height;
  const widestGap = Math.max(...insert.gaps);
  return {
    tipRadius,
    rootRadius,
    depth,
    halfAtTable,
    projection,
    floor: -Math.max(850, depth + tipRadius + 260),
    halfWidth: table.width / 2,
    tableFront: -table.infeed,
    tableRear,
    outfeed: table.outfeed,
    mouth: {
      from: -Math.min(reach + 34, table.infeed - 40),
      to: Math.min(reach + 175, tableRear - 40),
      half: Math.max(58, blade.kerf / 2 + widestGap + 26),
    },
    hoodHalf: Math.max(19, blade.kerf / 2 + 15),
    // a rigid hood of one size, but never one the blade would stand through
    hoodDepth: Math.max(0.46 * largest, projection - hoodRim + 12),
    hoodRim,
    fenceFace: blade.kerf / 2 + fence.face,
    fenceTurn: Math.atan2(fence.toe, 2 * halfAtTable),
    tilt: degreesToRadians(arbor.tilt),
  };
}
