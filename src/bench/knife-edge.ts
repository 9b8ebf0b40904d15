import type { Arc } from '../geometry/index.ts';

type KnifeSetting = {
  readonly edgeRadius: number;
  readonly reach: number;
  readonly along: number;
  readonly up: number;
};

/** Height of the table above the centre of the edge arc, mm. */
const tableAboveCentre = (knife: KnifeSetting, arborDepth: number): number => arborDepth - knife.up;

/** Whether any of the leading edge stands above the table. */
export function knifeEdgeExists(knife: KnifeSetting, arborDepth: number): boolean {
  const table = tableAboveCentre(knife, arborDepth);
  return knife.reach > table && Math.abs(table) < knife.edgeRadius;
}

/**
 * The leading edge of the riving knife from the table up to its tip, in the blade plane.
 * The arc's centre is (along, -arborDepth + up); the edge is the side of the circle at greater x.
 * @param arborDepth mm below the table
 */
export function knifeEdge(knife: KnifeSetting, arborDepth: number): Arc {
  return {
    centre: { x: knife.along, y: knife.up - arborDepth },
    radius: knife.edgeRadius,
    from: Math.asin(tableAboveCentre(knife, arborDepth) / knife.edgeRadius),
    to: Math.asin(knife.reach / knife.edgeRadius),
  };
}
