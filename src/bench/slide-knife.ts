import { arcDistanceRange } from '../geometry/index.ts';
import { knifeEdge, knifeEdgeExists } from './knife-edge.ts';
import type { Bench, Knife } from './schema/index.ts';

export type Slide = {
  /** the knife where the hand left it */
  readonly knife: Knife;
  /** what it came up against on the way, if anything */
  readonly stoppedBy: 'teeth' | 'table' | null;
};

/** A knife slides until it touches the teeth, and no further; its tip stays above the table. */
export function slideKnife(bench: Bench, wanted: Knife): Slide {
  const from = bench.knife ?? wanted;
  const settle = (clear: (knife: typeof wanted) => boolean) => {
    if (clear(wanted)) return wanted;
    if (!clear(from)) return from;
    return lastClear(from, wanted, clear);
  };
  const standing = settle((knife) => knifeEdgeExists(knife, bench.arbor.depth));
  const touching = (knife: typeof wanted) => leastGap(bench, knife) < 0;
  const before = touching(from);
  let landed = standing;
  if (touching(standing)) {
    // already in the teeth: moving it clear is always allowed, moving it deeper is not
    if (before) landed = leastGap(bench, standing) >= leastGap(bench, from) ? standing : from;
    else landed = lastClear(from, standing, (knife) => !touching(knife));
  }
  const stoppedBy: Slide['stoppedBy'] =
    landed !== standing ? 'teeth' : standing !== wanted ? 'table' : null;
  return { knife: landed, stoppedBy };
}

/** mm; below 0 the knife is in the teeth. Infinite when no edge stands above the table. */
export function leastGap(bench: Bench, knife: Knife): number {
  if (!knifeEdgeExists(knife, bench.arbor.depth)) return Number.POSITIVE_INFINITY;
  const axis = { x: 0, y: -bench.arbor.depth };
  return (
    arcDistanceRange(knifeEdge(knife, bench.arbor.depth), axis).least - bench.blade.diameter / 2
  );
}

/** The furthest point of a straight slide that is still clear, to a thousandth of a millimetre. */
function lastClear(from: Knife, to: Knife, clear: (knife: Knife) => boolean): Knife {
  const at = (share: number): Knife => ({
    ...to,
    along: from.along + (to.along - from.along) * share,
    up: from.up + (to.up - from.up) * share,
  });
  let low = 0;
  let high = 1;
  while ((high - low) * Math.hypot(to.along - from.along, to.up - from.up) > 1e-3) {
    const middle = (low + high) / 2;
    if (clear(at(middle))) low = middle;
    else high = middle;
  }
  return at(low);
}
