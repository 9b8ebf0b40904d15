import type { Bench } from '../../bench/index.ts';
import { layoutOf } from './layout.ts';

/** mm: each knife's share of the board, its height, and how far it hangs below the table. */
export const CELL = 96;
export const BOARD = { height: 336, thick: 20, below: 84 };
export const MOST = 8;
/** mm that a knife curves over to the left of its peg, shared out on both sides of it. */
export const CURVE = 66;

/** Middle of the board: it hangs on the left of the bench under the take-off end, facing out. */
export function rackPlace(bench: Bench, knives: number): { x: number; y: number; z: number } {
  const { outfeed, halfWidth } = layoutOf(bench);
  return {
    x: outfeed - 60 - widthFor(knives) / 2,
    y: -BOARD.below - BOARD.height / 2,
    z: -halfWidth + 28,
  };
}

export const widthFor = (knives: number): number => Math.min(knives, MOST) * CELL + 2 * CURVE + 24;
