import { type Bench, bladeFrame, knifeOutline } from '../bench/index.ts';
import type { Point } from '../geometry/index.ts';
import { guardShape, postsOf } from './parts/guard-side.ts';
import type { BalloonSpot } from './place-balloons.ts';
import type { Sheet } from './sheet.ts';
import type { PartLabel } from './view.ts';

/** Where the leader of each part's balloon ends, and where the balloon stands, mm. */
export const sideLabelSpots = (
  bench: Bench,
  sheet: Sheet,
  labels: readonly PartLabel[],
): (BalloonSpot | null)[] =>
  labels.map((part) => {
    const place = labelPlace(bench, part, sheet);
    return place && { at: sheet.at(place.at), target: sheet.at(place.target) };
  });

function labelPlace(
  bench: Bench,
  part: PartLabel,
  sheet: Sheet,
): { at: Point; target: Point } | null {
  const { tipRadius, depth, stock } = bladeFrame(bench);
  const { clip } = sheet;
  const guard = bench.guard === null ? null : guardShape(bench, bench.guard);
  const high = clip.top - sheet.mm(30);
  const beside = (target: Point, dx: number, dy: number) => ({
    target,
    at: { x: target.x + sheet.mm(dx), y: target.y + sheet.mm(dy) },
  });
  switch (part) {
    case 'blade':
      return beside({ x: tipRadius * 0.34, y: -depth - tipRadius * 0.55 }, 0, 0.0001);
    case 'teeth':
      return {
        target: { x: -tipRadius * 0.9, y: -depth - tipRadius * 0.4 },
        at: { x: -tipRadius - sheet.mm(70), y: -depth - tipRadius * 0.6 },
      };
    case 'knife': {
      if (bench.knife === null) return null;
      const { atTable } = knifeOutline(bench.knife, depth);
      return {
        target: { x: atTable.x + 16, y: -16 },
        at: { x: atTable.x + sheet.mm(120), y: -sheet.mm(110) },
      };
    }
    case 'guard':
      if (guard === null || bench.guard === null) return null;
      return {
        target: { x: bench.guard.front + 40, y: guard.underside + 22 },
        at: { x: clip.left + sheet.mm(120), y: high },
      };
    case 'posts':
      if (guard === null || bench.guard === null) return null;
      return {
        target: { x: postsOf(bench.guard)[0], y: guard.crown + 96 },
        at: { x: postsOf(bench.guard)[0] - sheet.mm(70), y: high },
      };
    case 'fingers':
      if (bench.guard === null || guard === null || bench.guard.fingers === 'none') return null;
      return {
        target: { x: bench.guard.rear + 6, y: guard.underside + 2 },
        at: { x: bench.guard.rear + sheet.mm(70), y: high },
      };
    case 'fence':
      return {
        target: { x: bench.fence.end - 14, y: Math.min(60, stock * 0.62) },
        at: { x: clip.left + sheet.mm(46), y: high },
      };
    case 'stock':
      return {
        target: { x: clip.right - sheet.mm(100), y: stock * 0.5 },
        at: { x: clip.right - sheet.mm(40), y: stock + sheet.mm(70) },
      };
    case 'table':
      return {
        target: { x: clip.left + sheet.mm(100), y: -16 },
        at: { x: clip.left + sheet.mm(76), y: -sheet.mm(126) },
      };
  }
}
