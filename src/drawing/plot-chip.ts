import { type Bench, bladeFrame, chipThickness, cutArc, feedPerTooth } from '../bench/index.ts';
import { mmToInches, type Point, pointAt } from '../geometry/index.ts';
import { thinLine } from './dimension.ts';
import { closedPath, shape } from './markup.ts';
import { plotWords } from './plot-frame.ts';
import type { PlotText } from './plot-request.ts';
import { finishSheet, type Naming } from './plot-sheet.ts';
import { SHEET_WIDTH, TEXT } from './sheet.ts';
import { ENGLISH } from './view.ts';

/** Share of the length of the cut that the thickest part of the chip is drawn as, at most. */
const SHOWN_SHARE = 0.2;

/** How many times thicker than it is a chip is drawn, a round number. */
export function chipEnlarged(length: number, thickest: number): number {
  const wanted = (length * SHOWN_SHARE) / thickest;
  const power = 10 ** Math.floor(Math.log10(wanted));
  return Math.max(1, ([5, 2, 1].find((one) => one * power <= wanted) ?? 1) * power);
}

/** A length too fine for the fractions of a rule, in decimals: `digits` of a mm, one more of an inch. */
export const sayFine = (
  mm: number,
  digits = 3,
): { readonly mm: string; readonly inch: string } => ({
  mm: `${mm.toFixed(digits)} mm`,
  inch: `${mmToInches(mm).toFixed(digits + 1)} in`,
});

const ROOM = { side: 210, over: 44, under: 44 };

/**
 * One chip as it lies in the stock before its tooth takes it: true along the cut, its thickness
 * enlarged. Its outer side is the path of the tooth, its inner side that of the tooth before.
 */
export function drawChip(bench: Bench, naming: Naming): string {
  const { wording = ENGLISH } = naming;
  const { tipRadius, depth, stock } = bladeFrame(bench);
  const arc = cutArc(tipRadius, depth, Math.min(stock, tipRadius - depth));
  const bite = feedPerTooth(bench.job.fed, bench.arbor.speed, bench.blade.teeth);
  const enlarged = chipEnlarged(arc.length, chipThickness(bite, arc.exit));
  const angles = Array.from(
    { length: 49 },
    (_, i) => arc.entry + ((arc.exit - arc.entry) * i) / 48,
  );
  const axis = { x: 0, y: -depth };
  const along = (radius: (angle: number) => number): Point[] =>
    angles.map((angle) => pointAt(axis, radius(angle), Math.PI / 2 + angle));
  const path = along(() => tipRadius);
  const before = along((angle) => tipRadius - enlarged * chipThickness(bite, angle));
  const all = [...path, ...before];
  const [left, right] = [Math.min(...all.map((p) => p.x)), Math.max(...all.map((p) => p.x))];
  const [low, high] = [Math.min(...all.map((p) => p.y)), Math.max(...all.map((p) => p.y))];
  const scale = Math.min((SHEET_WIDTH - 2 * ROOM.side) / (right - left), 260 / (high - low));
  const shift = (SHEET_WIDTH - (right - left) * scale) / 2;
  const at = ({ x, y }: Point): Point => ({
    x: shift + (x - left) * scale,
    y: ROOM.over + (high - y) * scale,
  });
  const height = ROOM.over + (high - low) * scale + ROOM.under;
  const [thinEnd, thickEnd] = [at(path[0] as Point), at(path[path.length - 1] as Point)];
  const label = (text: PlotText, from: Point, to: Point): string =>
    thinLine(from, to) + plotWords(text, { x: 8, y: to.y + TEXT * 0.35 }, 'start', 'size');
  const [inAt, outAt] = [
    sayFine(chipThickness(bite, arc.entry)),
    sayFine(chipThickness(bite, arc.exit)),
  ];
  return finishSheet(
    'chip',
    naming,
    { width: SHEET_WIDTH, height, scale },
    shape(closedPath([...path, ...before.toReversed()].map(at)), 'outline', 'timber', {
      'data-part': 'chip',
      'data-enlarged': enlarged,
    }),
    label(inAt, thinEnd, { x: 168, y: Math.max(TEXT, thinEnd.y) }),
    label(outAt, thickEnd, { x: 168, y: thickEnd.y }),
    plotWords(wording.in, { x: thinEnd.x + 8, y: thinEnd.y - 12 }, 'start'),
    plotWords(wording.out, { x: thickEnd.x + 2, y: thickEnd.y + TEXT + 6 }, 'end'),
  );
}
