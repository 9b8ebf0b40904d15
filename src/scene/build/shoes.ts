import { box } from '../shape/box.ts';
import type { Piece } from '../shape/pieces.ts';
import { prism } from '../shape/prism.ts';
import { limb } from '../shape/skin.ts';
import type { Solid } from '../shape/solid.ts';
import type { Dress } from './stance.ts';

const paint = (solid: Solid, colour: string): Piece => ({ surface: 'wall', colour, solid });

/** One shoe about its ankle, toe along +x, standing on y = 0. */
export function shoe({ footwear }: Dress): Piece[] {
  const sole = (thick: number, grow: number, colour: string): Piece =>
    paint(soleOf(thick, grow), colour);
  const foot = (low: number, high: number): Solid =>
    limb([
      [[-44, low + 40, 0], 38],
      [[10, low + 42, 0], 40],
      [[86, low + 28, 0], high],
      [[148, low + 20, 0], 27],
    ]);
  if (footwear === 'sandals') {
    return [
      sole(16, 2, '#4a3b2c'),
      paint(foot(4, 32), '#bfb3a2'),
      ...[-40, 40, 110].map((x) =>
        paint(
          limb(
            [
              [[x, 22, -40], 9],
              [[x + 4, x > 0 ? 84 - x * 0.28 : 82, 0], 9],
              [[x, 22, 40], 9],
            ],
            8,
          ),
          '#4a3b2c',
        ),
      ),
    ];
  }
  if (footwear === 'trainers') {
    return [
      sole(22, 3, '#f0eee8'),
      paint(foot(12, 34), '#b9bec2'),
      paint(box([-20, 36, -42], [60, 44, 42], 3), '#f0eee8'),
    ];
  }
  return [
    sole(30, 7, '#151617'),
    paint(foot(18, 38), '#2b2622'),
    paint(
      limb([
        [[120, 44, 0], 38],
        [[150, 40, 0], 35],
      ]),
      '#565a5d',
    ),
    paint(
      limb([
        [[-8, 84, 0], 47],
        [[-10, 128, 0], 48],
      ]),
      '#2b2622',
    ),
  ];
}

/** A sole: narrow at the heel, broad at the ball of the foot. */
function soleOf(thick: number, grow: number): Solid {
  const outline: readonly (readonly [number, number])[] = [
    [-84, 0],
    [-80, 26],
    [-50, 36],
    [20, 36],
    [90, 46],
    [140, 40],
    [174, 18],
    [180, 0],
  ];
  const round = [
    ...outline,
    ...outline
      .slice(1, -1)
      .toReversed()
      .map(([x, z]) => [x, -z] as const),
  ].map(([x, z]) => ({ x: z + Math.sign(z) * grow, y: x + Math.sign(x) * grow }));
  return prism({ plane: 'plan', outline: round, from: 0, to: thick, chamfer: 4 });
}
