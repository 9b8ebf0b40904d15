import { arcPoints, type Point } from '../../geometry/index.ts';
import { knifeEdge } from '../knife-edge.ts';
import type { Knife } from '../schema/index.ts';

export type KnifeOutline = {
  /** closed outline, counter-clockwise, mm in the blade plane of the bench frame */
  readonly outline: readonly Point[];
  /** the slot in the foot that the clamp bolt passes through, as an upright rectangle */
  readonly slot: readonly Point[];
  /** the point nearest the top of the blade, and where the leading edge meets the table */
  readonly tip: Point;
  readonly atTable: Point;
  /** centre of the foot under the table, where the bracket holds it */
  readonly foot: Point;
};

/** mm the knife hangs below the table into its bracket. */
const FOOT_DEPTH = 95;
const SLOT = { width: 13, top: 22, bottom: 80 };
const EDGE_STEPS = 48;

/** Breadth of the knife from leading edge to back, mm: larger knives are broader. */
const breadth = (knife: Knife): number => Math.min(90, Math.max(36, 0.2 * knife.edgeRadius));

/**
 * The riving knife from its foot under the table to its tip. The leading edge is the model's own
 * arc; back, top and foot are drawn to suit, since no limit is set on them.
 */
export function knifeOutline(knife: Knife, arborDepth: number): KnifeOutline {
  const edge = knifeEdge(knife, arborDepth);
  const leading = arcPoints(edge, EDGE_STEPS);
  const atTable = leading[0] as Point;
  const tip = leading[leading.length - 1] as Point;
  const back = edge.radius + breadth(knife);
  const { x: cx, y: cy } = edge.centre;
  const backX = (y: number) => cx + Math.sqrt(Math.max(0, back * back - (y - cy) ** 2));
  const topBack = backX(tip.y);
  // The nose is rounded off so that stock never meets a corner; it stays at or below the tip.
  const nose = Math.min(18, (topBack - tip.x) / 2);
  const backPoints = Array.from({ length: 13 }, (_, i) => {
    const y = tip.y - nose + (0 - (tip.y - nose)) * (i / 12);
    return { x: backX(y), y };
  });
  const footBack = backX(0);
  const outline: Point[] = [
    { x: atTable.x, y: -FOOT_DEPTH },
    { x: footBack, y: -FOOT_DEPTH },
    ...backPoints.reverse(),
    { x: topBack - nose, y: tip.y },
    ...leading.reverse(),
  ];
  const middle = (atTable.x + footBack) / 2;
  const half = SLOT.width / 2;
  return {
    outline,
    slot: [
      { x: middle - half, y: -SLOT.bottom },
      { x: middle + half, y: -SLOT.bottom },
      { x: middle + half, y: -SLOT.top },
      { x: middle - half, y: -SLOT.top },
    ],
    tip,
    atTable,
    foot: { x: middle, y: -FOOT_DEPTH / 2 },
  };
}
