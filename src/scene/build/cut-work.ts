import type { Bench } from '../../bench/index.ts';
import type { Point } from '../../geometry/index.ts';
import { type Kerf, kerfOf } from '../motion/kerf.ts';
import type { Piece } from '../shape/pieces.ts';
import { prism } from '../shape/prism.ts';
import { addQuad, emptySolid, type Solid } from '../shape/solid.ts';
import { COLOURS } from '../surface/colours.ts';
import { layoutOf } from './layout.ts';
import { ROOM } from './place.ts';
import { boardPieces, cutLine, stockBox } from './stock.ts';

/** The side of the cut that runs along the fence, what is left of it on the other, or both in one. */
export type CutSide = 'fence' | 'off' | 'both';

/** The work with the kerf all along it, where it stands ready. What is not yet cut is laid in after. */
export function cutWorkPieces(bench: Bench, side: CutSide): Piece[] {
  const { from, to, crosswise } = stockBox(bench);
  const kerf = kerfOf(bench);
  const outline = sectionOf(kerf, side, from[2], to[2], to[1]);
  if (outline === null) return [];
  const solid = prism({ plane: 'end', outline, from: from[0], to: to[0] });
  const edge = side === 'fence' ? to[1] * kerf.slope + kerf.half : undefined;
  const line = side === 'off' ? [] : cutLine(bench, from, to, crosswise, edge);
  return [...boardPieces(bench, solid), ...line];
}

/** Seen from the end, (y, z): a board, a strip of one, or one with a groove in its underside. */
function sectionOf(
  { height, through, half, slope }: Kerf,
  side: CutSide,
  left: number,
  right: number,
  top: number,
): Point[] | null {
  const wall = (y: number, sign: 1 | -1): Point => ({ x: y, y: y * slope + sign * half });
  const clip = (p: Point): Point => ({ x: p.x, y: Math.min(right, Math.max(left, p.y)) });
  if (side === 'both') {
    if (through || half >= right || -half <= left) return null;
    return [
      { x: 0, y: left },
      wall(0, -1),
      wall(height, -1),
      wall(height, 1),
      wall(0, 1),
      { x: 0, y: right },
      { x: top, y: right },
      { x: top, y: left },
    ];
  }
  if (!through) return null;
  const [near, far] = side === 'fence' ? ([1, right] as const) : ([-1, left] as const);
  const [low, high] = [clip(wall(0, near)), clip(wall(top, near))];
  if (Math.abs(far - low.y) + Math.abs(far - high.y) < 0.5) return null;
  return [low, { x: 0, y: far }, { x: top, y: far }, high];
}

/** The part of the line of cut that is still whole, its outline given from the side. */
export function uncutPieces(bench: Bench, outline: readonly Point[]): Piece[] {
  const { half, slope } = kerfOf(bench);
  const upright = prism({ plane: 'side', outline, from: -half, to: half });
  const positions = upright.positions.slice();
  for (let i = 0; i < positions.length; i += 3) {
    positions[i + 2] = (positions[i + 2] as number) + (positions[i + 1] as number) * slope;
  }
  return boardPieces(bench, { ...upright, positions });
}

/** mm between the bands of the hatching. */
const BAND = 150;

/** Hatched on the floor from the bench to the wall behind the operator: nobody stands there. */
export function clearStripPieces(bench: Bench, strip: { from: number; to: number }): Piece[] {
  const { floor, tableFront } = layoutOf(bench);
  const [z0, z1] = [Math.min(strip.from, strip.to), Math.max(strip.from, strip.to)];
  const [x0, x1] = [ROOM.x0 + 20, tableFront - 30];
  const y = floor + 1.4;
  const flat = (a: Point, b: Point, c: Point, d: Point): Solid => {
    const solid = emptySolid();
    addQuad(solid, [
      [a.x, y, a.y],
      [b.x, y, b.y],
      [c.x, y, c.y],
      [d.x, y, d.y],
    ]);
    return solid;
  };
  const rect = (xa: number, xb: number, za: number, zb: number) =>
    flat({ x: xa, y: zb }, { x: xb, y: zb }, { x: xb, y: za }, { x: xa, y: za });
  const lean = z1 - z0;
  const bands = Array.from({ length: Math.floor((x1 - x0) / (2 * BAND)) }, (_, i): Solid | null => {
    const x = x0 + i * 2 * BAND;
    if (x + BAND + lean > x1) return null;
    return flat(
      { x: x + lean, y: z1 },
      { x: x + BAND + lean, y: z1 },
      { x: x + BAND, y: z0 },
      { x, y: z0 },
    );
  });
  const edge = 28;
  return [
    ...bands,
    rect(x0, x1, z0 - edge, z0),
    rect(x0, x1, z1, z1 + edge),
    rect(x1 - edge, x1, z0, z1),
  ]
    .filter((solid) => solid !== null)
    .map((solid) => ({ surface: 'mark', colour: COLOURS.hazard, solid, mesh: 'clear-strip' }));
}
