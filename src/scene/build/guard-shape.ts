import type { Guard } from '../../bench/index.ts';
import type { Point } from '../../geometry/index.ts';
import type { Runner } from '../motion/lift.ts';
import { GUARD_STOP, type Layout } from './layout.ts';

/** The hood's outline from the side: level rim, upturned nose, roof that follows the blade. */
export function hoodOutline(guard: Guard, layout: Layout): Point[] {
  const { hoodRim: rim, hoodDepth, hoodRunner } = layout;
  const { front, rear } = guard;
  const length = rear - front;
  const roof = rim + hoodDepth;
  const tip = Math.min(16, length * 0.06);
  const low =
    rim + Math.max(Math.min(44, hoodDepth * 0.46), (hoodRunner?.rise ?? 0) + hoodDepth * 0.13);
  const steps = 12;
  const shoulder = Math.min(length * 0.34, hoodDepth * 1.5);
  const rise = Array.from({ length: steps + 1 }, (_, i) => {
    const t = i / steps;
    return { along: t * shoulder, up: low + (roof - low) * Math.sin((t * Math.PI) / 2) };
  });
  const foot =
    hoodRunner === null
      ? [
          { x: front, y: rim + tip * 0.9 },
          { x: front + tip * 0.25, y: rim + tip * 0.3 },
          { x: front + tip, y: rim },
          { x: rear - 6, y: rim },
          { x: rear, y: rim + 6 },
        ]
      : [
          { x: front, y: rim + hoodRunner.rise },
          { x: front + hoodRunner.nose, y: rim },
          { x: rear - hoodRunner.tail, y: rim },
          { x: rear, y: rim + hoodRunner.rise },
        ];
  return [
    ...foot,
    ...rise.map(({ along, up }) => ({ x: rear - along, y: up })),
    ...rise.toReversed().map(({ along, up }) => ({ x: front + along, y: up })),
  ];
}

/** mm a leaf stands up inside the hood's rim when it is shut, so that it is held and leaves no gap. */
const LEAF_LAP = 26;

/** The leaves of a self-closing guard, shut: down to their stop, both ends sloped for the work. */
export function flapRunner(guard: Guard, { hoodRim }: Layout): Runner & { readonly top: number } {
  const length = guard.rear - guard.front;
  const front = guard.front + Math.min(12, length * 0.03);
  const rear = guard.rear - Math.min(28, length * 0.06);
  const top = hoodRim + LEAF_LAP;
  // upright above the slopes: a sharp corner would catch sleeves
  const rise = top - GUARD_STOP - 16;
  const nose = Math.min(rise * 0.75, (rear - front) * 0.35);
  return { front, rear, nose, tail: nose * 0.5, rise, top };
}

/** What is left of an outline on one side of a level or upright line. */
export function cutOutline(
  outline: readonly Point[],
  axis: 'x' | 'y',
  keep: 'above' | 'below',
  at: number,
): Point[] {
  const side = (p: Point): number => (keep === 'above' ? p[axis] - at : at - p[axis]);
  return outline.flatMap((a, i) => {
    const b = outline[(i + 1) % outline.length] as Point;
    const [da, db] = [side(a), side(b)];
    const kept = da >= 0 ? [a] : [];
    if (da >= 0 === db >= 0) return kept;
    const t = da / (da - db);
    return [...kept, { x: a.x + (b.x - a.x) * t, y: a.y + (b.y - a.y) * t }];
  });
}
