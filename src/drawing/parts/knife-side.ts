import { type Bench, knifeOutline } from '../../bench/index.ts';
import type { Point } from '../../geometry/index.ts';
import { closedPath, figure, node, shape } from '../markup.ts';
import { circlePath } from './blade-side.ts';

/** Half-width of the bar that carries the knife's foot, mm. */
const BAR = 17;

/** A bar with round ends between two points, as path data. */
function barPath(from: Point, to: Point, half: number): string {
  const length = Math.hypot(to.x - from.x, to.y - from.y) || 1;
  const side = { x: (-(to.y - from.y) / length) * half, y: ((to.x - from.x) / length) * half };
  const f = figure;
  const at = (point: Point, sign: 1 | -1) =>
    `${f(point.x + sign * side.x)} ${f(point.y + sign * side.y)}`;
  const end = `A${half} ${half} 0 0 0 `;
  return `M${at(from, 1)}L${at(to, 1)}${end}${at(to, -1)}L${at(from, -1)}${end}${at(from, 1)}Z`;
}

/** What carries the knife: seen beyond the blade, so drawn before it. Model markup, mm. */
export function drawKnifeCarrier(bench: Bench): string {
  if (bench.knife === null) return '';
  const { foot } = knifeOutline(bench.knife, bench.arbor.depth);
  const axis = { x: 0, y: -bench.arbor.depth };
  const below = { x: foot.x, y: foot.y - 10 };
  // carried with the arbor it rises and falls with the blade; else it hangs from frame or table
  const held =
    bench.knife.carriedBy === 'arbor'
      ? barPath(axis, below, BAR)
      : bench.knife.carriedBy === 'table'
        ? barPath({ x: foot.x, y: -30 }, below, BAR)
        : barPath({ x: foot.x + 120, y: foot.y - 10 }, below, BAR);
  return shape(held, 'thin', 'iron', { 'data-part': 'knife-carrier' });
}

/** The riving knife with its slot and clamp bolt. Model markup, mm. */
export function drawKnifeSide(bench: Bench): string {
  if (bench.knife === null) return '';
  const { outline, slot, foot } = knifeOutline(bench.knife, bench.arbor.depth);
  return node(
    'g',
    { class: 'knife' },
    shape(closedPath(outline), 'outline', 'steel', { 'data-part': 'knife' }),
    shape(closedPath(slot), 'thin', 'paper'),
    shape(circlePath(foot, 13), 'thin', 'iron'),
    shape(circlePath(foot, 6.5), 'thin', 'steel'),
  );
}
