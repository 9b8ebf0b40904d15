import { type LengthUnit, MM_PER_INCH } from '../../geometry/index.ts';
import { type Drawn, figureAt, plate, upright } from './lines.ts';
import { vernierMark } from './marks.ts';

/**
 * A vernier calliper's scales: the beam above, the vernier below, their lines meeting on one edge.
 * Metric: 20 vernier lines in 39 mm, so that each twentieth moves the meeting line on by one. Inch: 25
 * lines of 0.049 in against fortieths of an inch. Textbook layouts of the long vernier; from memory.
 */
const SYSTEMS = {
  mm: {
    main: 1,
    vernier: 1.95,
    lines: 20,
    scale: 30,
    perFigure: 10,
    ofVernier: 2,
    resolution: 0.05,
  },
  inch: {
    main: MM_PER_INCH / 40,
    vernier: MM_PER_INCH * 0.049,
    lines: 25,
    scale: 38,
    perFigure: 4,
    ofVernier: 5,
    resolution: MM_PER_INCH / 1000,
  },
} as const;

const EDGE = 92;

export function drawVernier(mm: number, unit: LengthUnit): Drawn {
  const { main, vernier, lines, scale, perFigure, ofVernier, resolution } = SYSTEMS[unit];
  // on an inch vernier to the nearest thousandth, so that a line does meet one
  const zero = Math.round(Math.abs(mm) / resolution) * resolution;
  // from the last figured line before the zero, so that the whole lines can be counted
  const { lines: past } = vernierMark(mm, unit);
  const first = Math.floor(zero / main + 1e-6) - past;
  const from = (first - 1.5) * main;
  const to = zero + lines * vernier + 2 * main;
  const x = (at: number) => (at - from) * scale;
  const beam: [number, number][] = [];
  const figures: string[] = [];
  for (let i = Math.max(0, first - 1); i * main <= to; i++) {
    const at = x(i * main);
    const isFigured = i % perFigure === 0;
    const isHalf = unit === 'mm' ? i % 5 === 0 : i % 2 === 0;
    const tall = isFigured ? 52 : isHalf ? 42 : 32;
    beam.push([at, -tall]);
    if (isFigured) figures.push(figureAt(sayBeam(i, unit), at, EDGE - 60, 24));
  }
  const slide: [number, number][] = [];
  for (let k = 0; k <= lines; k++) {
    const at = x(zero + k * vernier);
    const isFigured = k % ofVernier === 0;
    slide.push([at, isFigured ? 42 : 30]);
    if (isFigured) figures.push(figureAt(String(unit === 'mm' ? k / 2 : k), at, EDGE + 66, 22));
  }
  const width = x(to);
  const left = x(zero - 1.2 * main);
  const marks = [
    plate(0, 4, width, EDGE - 4, 'var(--draw-steel)'),
    plate(left, EDGE, width - left - scale * main * 0.6, 80, 'var(--draw-iron)'),
    upright(beam, EDGE, 2.2),
    upright(slide, EDGE, 2.2),
    ...figures,
  ];
  return { width: Math.ceil(width), height: EDGE + 84, marks: marks.join('') };
}

/** Figures in millimetres; on an inch beam tenths, with the whole inches told. */
function sayBeam(line: number, unit: LengthUnit): string {
  if (unit === 'mm') return String(line);
  return line % 40 === 0 ? `${line / 40} in` : `.${(line % 40) / 4}`;
}
