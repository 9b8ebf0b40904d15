import { type InstrumentId, leavesFor } from '../../bench/index.ts';
import { type LengthUnit, mmToInches } from '../../geometry/index.ts';
import { escapeText, node } from '../markup.ts';
import { drawDial } from './dial.ts';
import { drawRule } from './rule.ts';
import { drawVernier } from './vernier.ts';

export type ScaleRequest = {
  readonly instrument: InstrumentId;
  /** mm as the instrument shows; null when nothing goes in */
  readonly reading: number | null;
  readonly unit: LengthUnit;
  /** what the close-up is of; its reading is never part of it */
  readonly title: string;
};

/** The close-up of an instrument's own scale, to be read off: an SVG of lines and figures. */
export function drawScale({ instrument, reading, unit, title }: ScaleRequest): string {
  const drawn =
    instrument === 'calliper'
      ? drawVernier(reading ?? 0, unit)
      : instrument === 'dial'
        ? drawDial(reading ?? 0, unit)
        : instrument === 'feeler' || instrument === 'straightedge'
          ? drawLeaves(reading, unit, instrument)
          : drawRule(reading ?? 0, unit);
  return node(
    'svg',
    {
      class: 'scale',
      viewBox: `0 0 ${drawn.width} ${drawn.height}`,
      role: 'img',
      'aria-label': title,
      xmlns: 'http://www.w3.org/2000/svg',
    },
    drawn.marks,
  );
}

const LEAF = { high: 34, gap: 4 };

/** The leaves that go in, one on the other, each with its own thickness on it. */
function drawLeaves(mm: number | null, unit: LengthUnit, instrument: InstrumentId) {
  // the thinnest stands before a gap it does not enter
  const isOut = mm === null;
  const leaves = leavesFor(mm ?? 0.05);
  const marks: string[] = [];
  const band = (y: number, high: number, fill: string) =>
    node('rect', { x: 0, y, width: 110, height: high, fill, stroke: 'currentColor' });
  const stack = leaves.length * (LEAF.high + LEAF.gap);
  const gap = isOut ? 4 : stack;
  const start = isOut ? 118 : 8;
  marks.push(band(1, 24, instrument === 'feeler' ? 'var(--draw-iron)' : 'var(--draw-steel)'));
  marks.push(band(25 + gap, 24, 'var(--draw-iron)'));
  for (const [i, leaf] of leaves.entries()) {
    const y = (isOut ? 10 : 27) + i * (LEAF.high + LEAF.gap);
    marks.push(
      node('path', {
        d: `M${start} ${y}H300a17 17 0 0 1 0 ${LEAF.high}H${start}z`,
        fill: 'var(--draw-steel)',
        stroke: 'currentColor',
      }),
      node(
        'text',
        { x: 136, y: y + 24, 'font-size': 20, fill: 'currentColor', class: 'scale-figure' },
        escapeText(unit === 'inch' ? `${mmToInches(leaf).toFixed(4)} in` : `${leaf.toFixed(2)} mm`),
      ),
    );
  }
  return { width: 330, height: 54 + gap, marks: marks.join('') };
}
