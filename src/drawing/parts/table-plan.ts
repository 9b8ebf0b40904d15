import type { Bench } from '../../bench/index.ts';
import type { Point } from '../../geometry/index.ts';
import { closedPath, openPath, shape } from '../markup.ts';
import { rectangle } from '../rectangle.ts';
import type { Clip } from '../sheet.ts';
import { circlePath } from './blade-side.ts';

/** The slot in the insert, its edges chewed where it is worn; the gaps that were measured stay. */
export function slotOf({ blade, insert }: Bench, front: number, rear: number): Point[] {
  const [left, right] = insert.gaps;
  const [near, far] = [-blade.kerf / 2 - right, blade.kerf / 2 + left];
  if (!insert.worn) return rectangle(front, rear, near, far);
  const steps = 24;
  const edge = (y: number, away: number): Point[] =>
    Array.from({ length: steps + 1 }, (_, i) => ({
      x: front + ((rear - front) * i) / steps,
      y: y + (i % 4 === 0 ? 0 : away * (1 + ((i * 5) % 3))),
    }));
  return [...edge(near, -1), ...edge(far, 1).toReversed()];
}

/** A crack across the casting and the dents beside it. */
export function drawDamage({ insert }: Bench, clip: Clip): string {
  const from = { x: -120, y: 62 + insert.gaps[0] };
  const line = [0, 0.2, 0.4, 0.6, 0.8, 1].map((share, i) => ({
    x: from.x + 60 * share + (i % 2) * 9,
    y: from.y + (clip.top + 20 - from.y) * share,
  }));
  return (
    shape(openPath(line), 'outline', 'none', { 'data-part': 'table-crack' }) +
    [
      [-60, 96],
      [30, 84],
      [95, 110],
    ]
      .map(([x, y]) =>
        shape(circlePath({ x: x as number, y: y as number }, 7), 'thin', 'ink', {
          'fill-opacity': 0.3,
          'data-part': 'dent',
        }),
      )
      .join('')
  );
}

/** Thin pieces lying loose on the free side of the blade. */
export function drawOffcuts({ blade }: Bench): string {
  return [-120, -70, -15, 40, 100]
    .map((x, i) => {
      const y = blade.kerf / 2 + 16 + ((i * 17) % 40);
      const lean = ((i % 3) - 1) * 12;
      return shape(
        closedPath([
          { x, y },
          { x: x + 46, y: y + lean },
          { x: x + 45, y: y + lean + 7 },
          { x: x - 1, y: y + 7 },
        ]),
        'thin',
        'timber',
        { 'data-part': 'offcut' },
      );
    })
    .join('');
}
