import {
  type Bench,
  bladeFrame,
  bladeOutline,
  boreRadius,
  collarRadius,
} from '../../bench/index.ts';
import { halfChord, type Point, pointAt } from '../../geometry/index.ts';
import { closedPath, figure, node, openPath, shape } from '../markup.ts';
import type { Clip, Sheet } from '../sheet.ts';
import { drawBladeState, placeBlade } from './blade-state.ts';

/** A circle as path data, so that it is drawn like every other shape. */
export const circlePath = ({ x, y }: Point, r: number): string => {
  const [left, right, level, size] = [x - r, x + r, y, r].map(figure);
  const half = `A${size} ${size} 0 1 0 `;
  return `M${left} ${level}${half}${right} ${level}${half}${left} ${level}Z`;
};

const hexagon = (centre: Point, radius: number): Point[] =>
  Array.from({ length: 6 }, (_, i) => pointAt(centre, radius, (i * Math.PI) / 3));

/** Dirt squeezed out from under a flange, mm past it. */
const ragged = (centre: Point, radius: number): Point[] =>
  Array.from({ length: 40 }, (_, i) =>
    pointAt(centre, radius + 3 + 3 * Math.sin(i * 2.4), (i * Math.PI) / 20),
  );

/**
 * The blade in its own plane, teeth and cracks as they are, with collar, nut, tooth circle and
 * centre lines. Model markup, mm.
 * @param turn radians the blade is turned on from "first tooth straight up"
 */
export function drawBladeSide(bench: Bench, turn = 0): string {
  const { blade } = bench;
  const { tipRadius, depth } = bladeFrame(bench);
  const axis = { x: 0, y: -depth };
  const placed = placeBlade(bench, turn);
  const drawn = bladeOutline(blade);
  const collar = collarRadius(bench);
  const bore = boreRadius(blade);
  const nut = bench.arbor.nut === 'loose' ? 'hidden' : 'thin';
  const reach = tipRadius + 14;
  return node(
    'g',
    { class: 'blade' },
    shape(closedPath(drawn.outline.map(placed)), 'outline', 'steel', { 'data-part': 'blade' }),
    drawBladeState(bench, drawn, placed),
    bench.arbor.flanges === 'dirty'
      ? shape(closedPath(ragged(axis, collar)), 'thin', 'ink', { 'data-part': 'dirt' })
      : '',
    shape(circlePath(axis, collar), 'thin', 'iron', { 'data-part': 'flange' }),
    bench.arbor.flanges === 'unlike'
      ? shape(circlePath(axis, collar * 0.68), 'outline', 'iron', { 'data-part': 'flange' })
      : '',
    shape(closedPath(hexagon(axis, bore * 1.35)), nut, 'steel', { 'data-part': 'nut' }),
    shape(circlePath(axis, bore * 0.8), 'thin', 'steel'),
    shape(circlePath(axis, bore), 'hidden', 'none', { 'data-part': 'bore' }),
    // a crack from the bore runs under the flange: hidden there
    ...blade.condition.cracks.map((crack, i) =>
      crack.at === 'bore'
        ? shape(openPath((drawn.cracks[i] ?? []).map(placed)), 'hidden', 'none', {
            'data-part': 'hidden-crack',
          })
        : '',
    ),
    shape(circlePath(axis, tipRadius), 'centre', 'none', { 'data-part': 'tooth-circle' }),
    shape(
      openPath([
        { x: -reach, y: -depth },
        { x: reach, y: -depth },
      ]),
      'centre',
    ),
    shape(
      openPath([
        { x: 0, y: -depth - reach },
        { x: 0, y: -depth + reach },
      ]),
      'centre',
    ),
  );
}

/** Which way the blade turns: an arc whose head points down at the operator's side. Model markup, mm. */
export function drawRotation(bench: Bench, clip: Clip): string {
  const { tipRadius, depth } = bladeFrame(bench);
  const axis = { x: 0, y: -depth };
  const radius = tipRadius * (clip.bottom < -depth - tipRadius * 0.7 ? 0.66 : 0.72);
  // at the operator's side of the arbor; over the table when the picture stops there
  const [from, to] = clip.bottom < -depth - radius ? [2.36, 3.66] : [1.25, 2.0];
  const points = Array.from({ length: 25 }, (_, i) =>
    pointAt(axis, radius, from + ((to - from) * i) / 24),
  );
  const head = tipRadius * 0.075;
  const tip = pointAt(axis, radius, to + head / radius);
  return node(
    'g',
    { class: 'rotation', 'data-part': 'rotation' },
    shape(openPath(points), 'outline'),
    shape(
      closedPath([
        tip,
        pointAt(axis, radius - head * 0.42, to),
        pointAt(axis, radius + head * 0.42, to),
      ]),
      'thin',
      'ink',
    ),
  );
}

/** Where the picture stops across the blade: a long break line with its kink (ISO 128-2). Model markup, mm. */
export function drawPictureEdge(bench: Bench, clip: Clip, sheet: Sheet): string {
  const { tipRadius, depth } = bladeFrame(bench);
  const height = clip.bottom + sheet.mm(3);
  const fromAxis = height + depth;
  if (Math.abs(fromAxis) >= tipRadius) return '';
  const half = halfChord(tipRadius, fromAxis) + sheet.mm(16);
  const left = Math.max(clip.left, -half);
  const right = Math.min(clip.right, half);
  const middle = (left + right) / 2;
  const kink = sheet.mm(9);
  return shape(
    openPath([
      { x: left, y: height },
      { x: middle - kink, y: height },
      { x: middle - kink / 2, y: height + kink },
      { x: middle + kink / 2, y: height - kink / 4 },
      { x: middle + kink, y: height },
      { x: right, y: height },
    ]),
    'thin',
  );
}
