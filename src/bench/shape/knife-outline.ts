import { arcPoints, type Point } from '../../geometry/index.ts';
import { knifeEdge } from '../knife-edge.ts';
import type { Knife } from '../schema/index.ts';

export type KnifeOutline = {
  /** closed outline, counter-clockwise, mm in the blade plane of the bench frame */
  readonly outline: readonly Point[];
  /** the slot in the foot that the clamp bolt passes through, four corners */
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
const FOOT_STEPS = 8;

/** Breadth of the knife from leading edge to back, mm: larger knives are broader. */
const breadth = (knife: Knife): number => Math.min(90, Math.max(36, 0.2 * knife.edgeRadius));

/** mm: how deep work has hollowed a worn edge, how high above the table, and its nicks. */
export const WORN = { hollow: 4, height: 70, nick: 1.6 } as const;

/** A point of a worn edge: hollowed where the work rubs, from just over the table up, with nicks in it. */
function wornBack(p: Point, i: number): Point {
  if (p.y < 2 || p.y > WORN.height) return p;
  const nick = i % 7 === 3 ? WORN.nick : i % 5 === 2 ? WORN.nick * 0.6 : 0;
  return { x: p.x + WORN.hollow * Math.sin((Math.PI * p.y) / WORN.height) + nick, y: p.y };
}

/**
 * The riving knife from its foot under the table to its tip. The leading edge is the model's own
 * arc, carried on below the table so that the foot clears the widest part of the blade; back, top
 * and foot are drawn to suit, since no limit is set on them.
 */
export function knifeOutline(knife: Knife, arborDepth: number): KnifeOutline {
  const edge = knifeEdge(knife, arborDepth);
  const ground = arcPoints(edge, EDGE_STEPS);
  const leading = knife.condition === 'worn' ? ground.map(wornBack) : ground;
  const atTable = leading[0] as Point;
  const tip = leading[leading.length - 1] as Point;
  const back = edge.radius + breadth(knife);
  const { x: cx, y: cy } = edge.centre;
  const onArc = (radius: number, y: number) =>
    cx + Math.sqrt(Math.max(0, radius * radius - (y - cy) ** 2));
  // Below its own centre the edge would curve back under the blade: the foot goes straight down there.
  const frontX = (y: number) => onArc(edge.radius, Math.max(y, cy));
  const backX = (y: number) => onArc(back, Math.max(y, cy));
  const topBack = backX(tip.y);
  // The nose is rounded off so that stock never meets a corner; it stays at or below the tip.
  const nose = Math.min(18, (topBack - tip.x) / 2);
  const heights = (from: number, to: number, steps: number) =>
    Array.from({ length: steps + 1 }, (_, i) => from + ((to - from) * i) / steps);

  const outline: Point[] = [
    ...heights(0, -FOOT_DEPTH, FOOT_STEPS)
      .slice(1)
      .map((y) => ({ x: frontX(y), y })),
    ...heights(-FOOT_DEPTH, tip.y - nose, EDGE_STEPS / 2).map((y) => ({ x: backX(y), y })),
    { x: topBack - nose * 0.3, y: tip.y - nose * 0.3 },
    { x: topBack - nose, y: tip.y },
    ...leading.toReversed(),
  ];
  const middle = (y: number) => (frontX(y) + backX(y)) / 2;
  const half = SLOT.width / 2;
  return {
    outline,
    slot: [
      { x: middle(-SLOT.bottom) - half, y: -SLOT.bottom },
      { x: middle(-SLOT.bottom) + half, y: -SLOT.bottom },
      { x: middle(-SLOT.top) + half, y: -SLOT.top },
      { x: middle(-SLOT.top) - half, y: -SLOT.top },
    ],
    tip,
    atTable,
    foot: { x: middle(-FOOT_DEPTH / 2), y: -FOOT_DEPTH / 2 },
  };
}
