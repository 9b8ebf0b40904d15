import type { Bench } from '../../bench/index.ts';
import { closedPath, shape } from '../markup.ts';
import { rectangle } from '../rectangle.ts';

/** Under the table, from the take-off end: model `x` is minus the bench's `z`. mm: underside of the top. */
const TOP = -32;

/** The packing beside the plate under the insert: close to it, or worn away from it. */
export function drawPads(bench: Bench): string {
  const { packing } = bench.arbor;
  if (packing === undefined || packing === 'none') return '';
  const near = bench.blade.plate / 2 + (packing === 'worn' ? 4.5 : 0.2);
  return [-1, 1]
    .map((side) => {
      const face =
        packing === 'worn'
          ? [-47, -38, -30, -21, -12].map((y, i) => ({ x: side * (near + (i % 2) * 3), y }))
          : [-47, -12].map((y) => ({ x: side * near, y }));
      return shape(
        closedPath([...face, { x: side * (near + 17), y: -12 }, { x: side * (near + 17), y: -47 }]),
        'thin',
        'timber',
        { 'data-part': 'packing' },
      );
    })
    .join('');
}

/** Plates on each side of the blade under the table, as far apart as they stand. */
export function drawUnderPlates({ underGuard, underPlates }: Bench): string {
  if (underGuard !== 'side-plates') return '';
  const half = (underPlates?.apart ?? 76) / 2;
  return [-half, half]
    .map((x) =>
      shape(closedPath(rectangle(x - 1, x + 1, -200, TOP)), 'thin', 'iron', {
        'data-part': 'plates',
      }),
    )
    .join('');
}
