import type { Bench, Guard } from '../../bench/index.ts';
import type { Point } from '../../geometry/index.ts';
import { roundedRectangle } from '../shape/outlines.ts';
import type { Piece } from '../shape/pieces.ts';
import { prism } from '../shape/prism.ts';
import { addQuad, emptySolid, type Solid } from '../shape/solid.ts';
import { bar, hexagon } from '../shape/turned.ts';
import { COLOURS } from '../surface/colours.ts';
import { guardFingers } from './guard-fingers.ts';
import { hangers } from './guard-hangers.ts';
import { type Layout, layoutOf } from './layout.ts';

/** Thickness of the hood's sheet, mm. */
const SHEET = 3;

/** The crown guard as it stands, down from the carriage that holds it. */
export function guardPieces(bench: Bench): Piece[] {
  const { guard } = bench;
  const layout = layoutOf(bench);
  if (guard === null) return [];
  return [
    ...hood(guard, layout),
    ...sidePlates(guard, layout),
    ...guardFingers(bench, guard, layout),
    ...hangers(bench, guard, layout),
  ];
}

/** The hood's outline from the side: level rim, upturned nose, roof that follows the blade. */
export function hoodOutline(guard: Guard, { hoodRim: rim, hoodDepth }: Layout): Point[] {
  const { front, rear } = guard;
  const length = rear - front;
  const roof = rim + hoodDepth;
  const low = rim + Math.min(44, hoodDepth * 0.46);
  const steps = 12;
  const shoulder = Math.min(length * 0.34, hoodDepth * 1.5);
  const rise = Array.from({ length: steps + 1 }, (_, i) => {
    const t = i / steps;
    return { along: t * shoulder, up: low + (roof - low) * Math.sin((t * Math.PI) / 2) };
  });
  const nose = Math.min(16, length * 0.06);
  return [
    { x: front + nose, y: rim },
    { x: rear - 6, y: rim },
    { x: rear, y: rim + 6 },
    ...rise.map(({ along, up }) => ({ x: rear - along, y: up })),
    ...rise.toReversed().map(({ along, up }) => ({ x: front + along, y: up })),
    { x: front, y: rim + nose * 0.9 },
    { x: front + nose * 0.25, y: rim + nose * 0.3 },
  ];
}

function hood(guard: Guard, layout: Layout): Piece[] {
  const { hoodHalf: half, hoodRim: rim } = layout;
  const outline = hoodOutline(guard, layout);
  const side = { plane: 'side', outline } as const;
  const paint = (solid: Solid, colour: string = COLOURS.hood): Piece => ({
    surface: 'enamel',
    colour,
    solid,
    mesh: 'guard-hood',
  });
  const bead = (z: number) =>
    bar([guard.front + 16, rim + 2.4, z], [guard.rear - 6, rim + 2.4, z], 2.4, 8);
  const seam = outline.filter(({ y }) => y > rim + 20);
  const rivets = seam
    .filter((_, i) => i % 5 === 2)
    .flatMap(({ x, y }) =>
      [half, -half].map((z) => hexagon([x, y - 8, z], [0, 0, Math.sign(z)], 7, 2.4)),
    );
  return [
    paint(prism({ ...side, from: half - SHEET, to: half, chamfer: 0.8 })),
    paint(prism({ ...side, from: -half, to: -half + SHEET, chamfer: 0.8 })),
    paint(roofStrip(outline, rim, half)),
    paint(bead(half)),
    paint(bead(-half)),
    ...rivets.map((solid): Piece => ({ surface: 'steel', colour: COLOURS.groundSteel, solid })),
    ...turnArrow(guard, layout),
  ];
}

/** The sheet over the top, from the nose to the tail, seen from outside and from within. */
function roofStrip(outline: readonly Point[], rim: number, half: number): Solid {
  const solid = emptySolid();
  const over = outline.filter(({ y }) => y > rim + 5.9);
  for (let i = 0; i + 1 < over.length; i++) {
    const [a, b] = [over[i], over[i + 1]] as [Point, Point];
    addQuad(solid, [
      [a.x, a.y, -half],
      [b.x, b.y, -half],
      [b.x, b.y, half],
      [a.x, a.y, half],
    ]);
    const inner = half - SHEET;
    const into = ({ x, y }: Point): Point => ({ x, y: y - SHEET });
    const [c, d] = [into(a), into(b)];
    addQuad(solid, [
      [d.x, d.y, -inner],
      [c.x, c.y, -inner],
      [c.x, c.y, inner],
      [d.x, d.y, inner],
    ]);
  }
  return solid;
}

/** Plates that hang below the rim on both sides, when the guard has them. */
function sidePlates(guard: Guard, layout: Layout): Piece[] {
  if (guard.sideDepth <= 0) return [];
  const { hoodHalf: half, hoodRim: rim } = layout;
  const bottom = rim - guard.sideDepth;
  const outline = roundedRectangle([guard.front + 24, bottom], [guard.rear - 14, rim + 16], 10);
  const bolts = [guard.front + 60, guard.rear - 60].flatMap((x) =>
    [half + 2, -half - 2].map((z) => hexagon([x, rim + 8, z], [0, 0, Math.sign(z)], 10, 5)),
  );
  return [
    ...[half, -half - 2].map(
      (z): Piece => ({
        surface: 'steel',
        colour: COLOURS.groundSteel,
        solid: prism({ plane: 'side', outline, from: z, to: z + 2, chamfer: 0.5 }),
        mesh: 'guard-side-plates',
      }),
    ),
    ...bolts.map((solid): Piece => ({ surface: 'steel', colour: COLOURS.blackSteel, solid })),
  ];
}

/** Which way the blade turns, raised on both sides of the hood: over the top toward the operator. */
function turnArrow(guard: Guard, { hoodHalf, hoodRim, hoodDepth }: Layout): Piece[] {
  const middle = (guard.front + guard.rear) / 2;
  const y = hoodRim + hoodDepth * 0.62;
  const size = Math.min(46, (guard.rear - guard.front) * 0.12);
  const arrow: Point[] = [
    { x: middle - size, y },
    { x: middle - size * 0.4, y: y + size * 0.34 },
    { x: middle - size * 0.4, y: y + size * 0.13 },
    { x: middle + size, y: y + size * 0.13 },
    { x: middle + size, y: y - size * 0.13 },
    { x: middle - size * 0.4, y: y - size * 0.13 },
    { x: middle - size * 0.4, y: y - size * 0.34 },
  ];
  return [hoodHalf, -hoodHalf - 0.8].map((z) => ({
    surface: 'enamel',
    colour: COLOURS.hoodDark,
    solid: prism({ plane: 'side', outline: arrow, from: z, to: z + 0.8 }),
  }));
}
