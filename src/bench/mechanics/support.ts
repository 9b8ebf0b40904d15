import { bladeFrame } from '../measures/index.ts';
import type { Bench } from '../schema/index.ts';

export type Support = {
  /** mm the centre of the finished piece is past the table edge when the cut ends; positive tips */
  readonly tipsBy: number;
  /** mm of feed left when the piece begins to tip; null when it never does */
  readonly tipsWithLeft: number | null;
  /** somebody or something has to carry the end */
  readonly needsSupport: boolean;
};

/** When the piece tips off the far edge of the table, and whether its end must be carried. */
export function supportOf(bench: Bench): Support {
  const { halfAtTable } = bladeFrame(bench);
  const tipsBy = halfAtTable + bench.job.stock.length / 2 - bench.table.outfeed;
  // the centre moves with the feed: it passes the edge this much before the cut ends
  const needsSupport = tipsBy > 0;
  return { tipsBy, tipsWithLeft: needsSupport ? tipsBy : null, needsSupport };
}

/**
 * mm from the nearer hand to the front teeth when `left` mm of the cut remain, the hand pushing on
 * the trailing end, with the push stick once no more than its share is left.
 */
export function handToBlade(bench: Bench, left: number): number {
  const stick = bench.people.pushStick;
  const usesStick = stick !== null && left <= stick.usedForLast;
  return left + (usesStick ? stick.length : 0);
}
