import type { LengthUnit } from '../../geometry/index.ts';
import { node } from '../markup.ts';
import { type Drawn, figureAt } from './lines.ts';
import { dialMark } from './marks.ts';

const HALF = 160;

/** A dial gauge's face: a hundred marks to the turn of the long hand, whole turns by the small one. */
export function drawDial(mm: number, unit: LengthUnit): Drawn {
  const { turns, mark } = dialMark(mm, unit);
  const share = mark / 100;
  const ray = (turn: number, from: number, to: number, cy = HALF) => {
    const [dx, dy] = [Math.sin(turn * 2 * Math.PI), -Math.cos(turn * 2 * Math.PI)];
    const at = (r: number) => `${(HALF + dx * r).toFixed(2)} ${(cy + dy * r).toFixed(2)}`;
    return `M${at(from)}L${at(to)}`;
  };
  const stroke = (d: string, width: number) =>
    node('path', { d, stroke: 'currentColor', 'stroke-width': width, 'stroke-linecap': 'round' });
  const ring = (r: number, cy: number, fill: string) =>
    node('circle', { cx: HALF, cy, r, fill, stroke: 'currentColor', 'stroke-width': 2 });
  const low = HALF + 52;
  const fine: string[] = [];
  const bold: string[] = [];
  const figures: string[] = [];
  for (let i = 0; i < 100; i++) {
    (i % 5 === 0 ? bold : fine).push(
      ray(i / 100, i % 10 === 0 ? 126 : i % 5 === 0 ? 132 : 137, 148),
    );
    if (i % 10 !== 0) continue;
    const turn = (i / 100) * 2 * Math.PI;
    figures.push(
      figureAt(String(i), HALF + Math.sin(turn) * 112, HALF - Math.cos(turn) * 112 + 6, 17),
    );
  }
  const small: string[] = [];
  for (let i = 0; i < 10; i++) {
    small.push(ray(i / 10, 25, 29, low));
    const turn = (i / 10) * 2 * Math.PI;
    figures.push(figureAt(String(i), HALF + Math.sin(turn) * 18, low - Math.cos(turn) * 18 + 4, 9));
  }
  const marks = [
    ring(154, HALF, 'var(--draw-iron)'),
    ring(149, HALF, 'var(--draw-paper)'),
    figureAt(unit === 'inch' ? '0.001 in' : '0.01 mm', HALF, HALF - 52, 14),
    stroke(fine.join(''), 1.4),
    stroke(bold.join(''), 2.4),
    ring(31, low, 'none'),
    stroke(small.join(''), 1.4),
    ...figures,
    // the small hand creeps on as the long one turns
    stroke(ray((turns + share) / 10, -6, 24, low), 2.6),
    stroke(ray(share, -26, 146), 2.2),
    ring(6, HALF, 'currentColor'),
  ];
  return { width: HALF * 2, height: HALF * 2, marks: marks.join('') };
}
