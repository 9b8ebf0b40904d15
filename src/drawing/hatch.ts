import type { Point } from '../geometry/index.ts';
import { openPath, shape } from './markup.ts';

/**
 * Parallel lines inside a closed polygon, for a part cut by the section plane (ISO 128-3 habit:
 * thin lines at 45 degrees, evenly spaced). Even-odd, so a hole may be joined in as a second loop.
 * @param loops closed outlines, any winding
 * @param spacing between lines, in the polygon's units
 * @param angle radians, counter-clockwise from +x
 */
export function hatchLines(
  loops: readonly (readonly Point[])[],
  spacing: number,
  angle: number,
): [Point, Point][] {
  const along = { x: Math.cos(angle), y: Math.sin(angle) };
  const across = { x: -along.y, y: along.x };
  const offset = (p: Point) => p.x * across.x + p.y * across.y;
  const place = (p: Point) => p.x * along.x + p.y * along.y;
  const edges = loops.flatMap((loop) =>
    loop.map((from, i): [Point, Point] => [from, loop[(i + 1) % loop.length] as Point]),
  );
  const offsets = edges.map(([from]) => offset(from));
  const first = Math.ceil(Math.min(...offsets) / spacing);
  const last = Math.floor(Math.max(...offsets) / spacing);
  const lines: [Point, Point][] = [];
  for (let row = first; row <= last; row += 1) {
    // half a millionth of a step aside, so that a line never runs exactly through a corner
    const level = (row + 5e-7) * spacing;
    const cuts = edges
      .flatMap(([from, to]) => {
        const a = offset(from) - level;
        const b = offset(to) - level;
        if (a < 0 === b < 0) return [];
        const share = a / (a - b);
        return [place(from) + share * (place(to) - place(from))];
      })
      .sort((a, b) => a - b);
    const at = (t: number): Point => ({
      x: across.x * level + along.x * t,
      y: across.y * level + along.y * t,
    });
    for (let i = 0; i + 1 < cuts.length; i += 2) {
      lines.push([at(cuts[i] as number), at(cuts[i + 1] as number)]);
    }
  }
  return lines;
}

/** The hatching of a cut part as one path. Model markup, mm. */
export function drawHatch(
  loops: readonly (readonly Point[])[],
  spacing: number,
  angle: number,
): string {
  const lines = hatchLines(loops, spacing, angle);
  return lines.length === 0
    ? ''
    : shape(lines.map(openPath).join(''), 'thin', 'none', { class: 'l-thin hatch' });
}
