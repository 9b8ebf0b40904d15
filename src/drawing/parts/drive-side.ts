import { type Bench, bladeFrame } from '../../bench/index.ts';
import type { Point } from '../../geometry/index.ts';
import { node, openPath, shape } from '../markup.ts';

/** mm: pulley on the arbor, half the cover, and how far the belts run down in the picture. */
const PULLEY = 40;
const COVER = 62;

/**
 * Belts beyond the blade, dashed as what is hidden, from the arbor down to where the picture ends; not
 * drawn where all that can be seen is a cover and nothing is known against what is under it. Model markup, mm.
 */
export function drawDriveSide(bench: Bench): string {
  const { tipRadius, depth } = bladeFrame(bench);
  const bottom = -depth - tipRadius - 60;
  const run = (x: number, aside: (share: number, i: number) => number): Point[] =>
    Array.from({ length: 13 }, (_, i) => ({
      x: x + aside(i / 12, i),
      y: -depth + ((bottom + depth) * i) / 12,
    }));
  const state = bench.driveBelt ?? 'sound';
  const covered = bench.driveGuard === 'cover';
  const sag = (side: number) => (share: number, i: number) =>
    state === 'slack'
      ? side * 26 * Math.sin(Math.PI * share)
      : state === 'worn'
        ? i % 2 === 0
          ? 3
          : -3
        : 0;
  if (covered && state === 'sound') return '';
  const belts = [-1, 1].map((side) =>
    shape(openPath(run(side * PULLEY, sag(side))), 'hidden', 'none', {
      'data-part': 'belt',
    }),
  );
  const cover = [-1, 1].map((side) =>
    shape(openPath(run(side * COVER, () => 0)), 'thin', 'none', { 'data-part': 'drive-cover' }),
  );
  return node('g', { class: 'drive' }, ...belts, ...(covered ? cover : []));
}
