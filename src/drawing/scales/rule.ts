import { type LengthUnit, MM_PER_INCH } from '../../geometry/index.ts';
import { node } from '../markup.ts';
import { type Drawn, figureAt, plate, upright } from './lines.ts';

/** mm of rule shown on either side of the edge. */
const BEFORE = 17;
const AFTER = 13;
const SCALE = 16;
const TOP = 46;
const DEEP = 84;

/** A steel rule where the edge of the work falls on it; short of the zero, the rule is turned about. */
export function drawRule(mm: number, unit: LengthUnit): Drawn {
  const from = Math.max(-2, Math.abs(mm) - BEFORE);
  const to = from + BEFORE + AFTER;
  const x = (at: number) => (at - from) * SCALE;
  const width = x(to);
  const lines: [number, number][] = [];
  const fine: [number, number][] = [];
  const figures: string[] = [];
  const step = unit === 'inch' ? MM_PER_INCH / 64 : 0.5;
  for (let i = 0; i * step <= to; i++) {
    const at = i * step;
    if (at < from) continue;
    const [tall, figure] = unit === 'inch' ? inchLine(i) : mmLine(i);
    ((unit === 'inch' ? i % 4 : i % 2) === 0 ? lines : fine).push([x(at), tall]);
    if (figure !== null) figures.push(figureAt(figure, x(at), TOP + 76, 20));
  }
  const edge = x(Math.abs(mm));
  const marks = [
    plate(x(Math.max(from, 0)), TOP, width - x(Math.max(from, 0)) + 2, DEEP, 'var(--draw-steel)'),
    upright(lines, TOP, 1.8),
    upright(fine, TOP, 1.1),
    ...figures,
    // the work ends at the edge; it stands just clear of the lines, so that none is hidden
    node('path', {
      d: `M0 4H${Number(edge.toFixed(2))}V${TOP - 1}H0`,
      fill: 'var(--draw-timber)',
      stroke: 'currentColor',
      'stroke-width': 2,
    }),
  ];
  return { width, height: TOP + DEEP + 4, marks: marks.join('') };
}

function mmLine(i: number): [number, string | null] {
  const figure = i % 20 === 0 ? String(i / 2) : null;
  return [i % 20 === 0 ? 54 : i % 10 === 0 ? 44 : i % 2 === 0 ? 32 : 18, figure];
}

function inchLine(i: number): [number, string | null] {
  const tall =
    i % 64 === 0
      ? 54
      : i % 32 === 0
        ? 48
        : i % 16 === 0
          ? 42
          : i % 8 === 0
            ? 35
            : i % 4 === 0
              ? 28
              : i % 2 === 0
                ? 20
                : 13;
  return [tall, i % 64 === 0 ? String(i / 64) : i % 8 === 0 ? `${i % 64}` : null];
}
