import { type Bench, bladeFrame } from '../../bench/index.ts';
import { degreesToRadians } from '../../geometry/index.ts';
import { liftOver, type Runner } from '../motion/lift.ts';

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
  /** y of the hood's lower rim in its own plane: as set, or riding on the stock that stands ready */
  readonly hoodRim: number;
  /** what a riding hood slides on; its height is that of its lower rim */
  readonly hoodRunner: Runner | null;
  /** y of the lowest edge of the guard over the work */
  readonly overWork: number;
  /** thickness of the stock in the guard's own plane, and whether that leans with the arbor */
  readonly guardStock: number;
  readonly guardLeans: boolean;
  /** x of the leading end of the stock that is ready to be fed, and its length along the feed */
  readonly ready: number;
  readonly workLong: number;
  /** z of the fence face at the front teeth, and its turn about y (radians, positive opens) */
  readonly fenceFace: number;
  readonly fenceTurn: number;
  /** radians the blade leans, about x */
  readonly tilt: number;
};

/** Depth of the main table casting at its rim, mm. */
export const TABLE_THICKNESS = 44;
/** mm between the front teeth and the end of the stock that is ready to be fed. */
const READY = 24;
/** mm above the table that a guard with nothing under it is stopped at. */
export const GUARD_STOP = 2;
/** mm a hood with flaps is set clear of the work that passes under it. */
const OVER_FLAPPED = 4;

export function layoutOf(bench: Bench): Layout {
  const { tipRadius, rootRadius, depth, halfAtTable, stock } = bladeFrame(bench);
  const { table, arbor, blade, insert, guard, fence } = bench;
  const largest = arbor.largestBlade / 2;
  const reach = Math.max(tipRadius, Math.min(largest, 600));
  const wanted = reach + 395;
  const tableRear = table.outfeed - wanted < 220 ? table.outfeed : wanted;
  const projection = tipRadius - depth;
  const guardLeans = guard?.leans !== false;
  const guardStock = guardLeans ? stock : bench.job.stock.thickness;
  const acts = guard !== null && !guard.stuck;
  const rides = acts && guard.kind === 'counterweighted';
  const flapped = acts && guard.kind === 'self-closing';
  const ready = -halfAtTable - READY;
  // a rigid hood of one size, but never one the blade would stand through
  const least = 0.46 * largest;
  const riding = Math.max(least, projection + 12 - GUARD_STOP);
  const hoodRunner = rides ? runnerOf(guard.front, guard.rear, riding) : null;
  const { cut, stock: piece } = bench.job;
  const workLong = cut === 'crosscut' ? piece.width : piece.length;
  const work = { trail: ready - workLong, lead: ready, top: guardStock };
  const hoodRim =
    guard === null
      ? 0
      : hoodRunner !== null
        ? liftOver(hoodRunner, work, GUARD_STOP)
        : flapped
          ? Math.max(guard.height, guardStock + OVER_FLAPPED)
          : guard.height;
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
    hoodDepth: rides ? riding : Math.max(least, projection - hoodRim + 12),
    hoodRim,
    hoodRunner,
    overWork: rides || flapped ? guardStock : hoodRim,
    guardStock,
    guardLeans,
    ready,
    workLong,
    fenceFace: blade.kerf / 2 + fence.face,
    fenceTurn: Math.atan2(fence.toe, 2 * halfAtTable),
    tilt: degreesToRadians(arbor.tilt),
  };
}

/** A riding hood: its nose slopes up so that the end of the work lifts it, its tail a little. */
function runnerOf(front: number, rear: number, depth: number): Runner {
  const rise = depth * 0.62;
  const nose = Math.min(rise * 0.9, (rear - front) * 0.35);
  return { front, rear, nose, tail: nose * 0.6, rise };
}
