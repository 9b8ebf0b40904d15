import type { Bench, Guard } from '../../bench/index.ts';
import type { Point } from '../../geometry/index.ts';
import type { Piece } from '../shape/pieces.ts';
import { prism } from '../shape/prism.ts';
import { bar, hexagon } from '../shape/turned.ts';
import { COLOURS } from '../surface/colours.ts';
import type { Layout } from './layout.ts';

const LENGTH = 104;

/**
 * Anti-kickback fingers, a pair on each side near the tail of the guard. Resting, they trail toward
 * the take-off end with their teeth on whatever lies below, so that work thrown back digs them in;
 * raised, they are hooked up along the hood.
 */
export function guardFingers(bench: Bench, guard: Guard, layout: Layout): Piece[] {
  if (guard.fingers === 'none') return [];
  const { hoodHalf: half, hoodRim: rim } = layout;
  const pivot = { x: guard.rear - 20, y: rim + 20 };
  const down = Math.asin(Math.min(1, Math.max(-0.2, (pivot.y - restingOn(bench, pivot)) / LENGTH)));
  const angle = guard.fingers === 'resting' ? -down : 0.5;
  const outline = fingerOutline().map(({ x, y }) => ({
    x: pivot.x + x * Math.cos(angle) - y * Math.sin(angle),
    y: pivot.y + x * Math.sin(angle) + y * Math.cos(angle),
  }));
  const offsets = [half + 3, half + 9, -half - 7, -half - 13];
  return [
    ...offsets.map(
      (z): Piece => ({
        surface: 'steel',
        colour: COLOURS.groundSteel,
        solid: prism({ plane: 'side', outline, from: z, to: z + 4, chamfer: 0.5 }),
        mesh: 'guard-fingers',
      }),
    ),
    {
      surface: 'steel',
      colour: COLOURS.blackSteel,
      solid: bar([pivot.x, pivot.y, -half - 18], [pivot.x, pivot.y, half + 18], 5),
    },
    {
      surface: 'steel',
      colour: COLOURS.blackSteel,
      solid: hexagon([pivot.x, pivot.y, half + 15], [0, 0, 1], 15, 7),
    },
    {
      surface: 'steel',
      colour: COLOURS.blackSteel,
      solid: hexagon([pivot.x, pivot.y, -half - 15], [0, 0, -1], 15, 7),
    },
  ];
}

/** Nothing lies under the tail until the work has passed, so the fingers come down on the table. */
function restingOn(bench: Bench, pivot: Point): number {
  return pivot.x + LENGTH < -bench.blade.diameter ? bench.job.stock.thickness : 0;
}

/** One finger lying along +x from its pivot, its toothed end curved underneath. */
function fingerOutline(): Point[] {
  const teeth = Array.from({ length: 4 }, (_, i): Point[] => {
    const x = LENGTH - 30 + i * 10;
    return [
      { x, y: -6.5 + i * 1.6 },
      { x: x + 8.2, y: i === 3 ? 0 : -8 + i * 1.6 },
    ];
  }).flat();
  return [
    { x: -9, y: -5 },
    { x: 0, y: -9 },
    { x: 30, y: -6 },
    { x: 62, y: -4.5 },
    ...teeth,
    { x: LENGTH - 6, y: 7 },
    { x: 62, y: 8 },
    { x: 24, y: 9 },
    { x: 0, y: 10 },
    { x: -9, y: 5 },
  ];
}
