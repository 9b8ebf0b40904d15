import type { Guard } from '../../bench/index.ts';
import type { Point } from '../../geometry/index.ts';
import { roundedRectangle } from '../shape/outlines.ts';
import type { Piece } from '../shape/pieces.ts';
import { prism } from '../shape/prism.ts';
import { addQuad, emptySolid, movedSolid, type Solid, turnAbout } from '../shape/solid.ts';
import { bar, hexagon, turned } from '../shape/turned.ts';
import { COLOURS } from '../surface/colours.ts';
import { cutOutline, hoodOutline } from './guard-shape.ts';
import type { Layout } from './layout.ts';

/** Thickness of the hood's sheet, mm. */
const SHEET = 3;
/** mm of the fence side left behind its flap, for the pin of the fingers. */
const BEHIND_FLAP = 52;

const paint = (solid: Solid, mesh = 'guard-hood', colour: string = COLOURS.hood): Piece => ({
  surface: 'enamel',
  colour,
  solid,
  mesh,
});
const bolt = (solid: Solid, colour: string = COLOURS.groundSteel): Piece => ({
  surface: 'steel',
  colour,
  solid,
});

/** A plate from the side, with a window in it where there is one. */
type Side = { readonly outline: Point[]; readonly window: Point[] | null };

/** The hood itself: two sides, the sheet over the top, windows, rivets, a flap where it has one. */
export function hood(guard: Guard, layout: Layout, flapTurn: number): Piece[] {
  const { hoodHalf: half, hoodRim: rim, hoodDepth } = layout;
  const outline = hoodOutline(guard, layout);
  const flapped = hasFlap(guard);
  const hinge = rim + hoodDepth * 0.56;
  const top = rim + hoodDepth * 0.7;
  const left: Side = { outline, window: windowIn(guard, rim + 15, top) };
  const right: Side = flapped
    ? { outline: cutOutline(outline, 'y', 'above', hinge), window: null }
    : left;
  const tail = cutOutline(
    cutOutline(outline, 'y', 'below', hinge),
    'x',
    'above',
    guard.rear - BEHIND_FLAP,
  );
  const runner = layout.hoodRunner;
  const bead = (z: number) =>
    bar(
      [guard.front + (runner?.nose ?? 16), rim + 2.4, z],
      [guard.rear - (runner?.tail ?? 6), rim + 2.4, z],
      2.4,
      8,
    );
  const seam = outline.filter(({ y }) => y > rim + 20);
  const rivets = seam
    .filter((_, i) => i % 5 === 2)
    .flatMap(({ x, y }) =>
      [half, -half].map((z) => hexagon([x, y - 8, z], [0, 0, Math.sign(z)], 7, 2.4)),
    );
  return [
    ...sheet(left, -half, -half + SHEET),
    ...sheet(right, half - SHEET, half),
    ...(flapped ? sheet({ outline: tail, window: null }, half - SHEET, half) : [paint(bead(half))]),
    paint(roofStrip(outline, guard.rear, half)),
    paint(bead(-half)),
    ...rivets.map((solid) => bolt(solid)),
    ...turnArrow(guard, layout),
    ...(guard.scuffed === true ? scuffs(guard, layout) : []),
    ...(flapped ? flap(guard, layout, outline, hinge, flapTurn) : []),
  ];
}

/** Leaves already close both sides of a self-closing guard. */
const hasFlap = (guard: Guard): boolean =>
  guard.flap !== undefined && guard.flap !== 'none' && guard.kind !== 'self-closing';

function windowIn(guard: Guard, low: number, high: number, behind = 0): Point[] | null {
  if (guard.window !== true) return null;
  const length = guard.rear - guard.front;
  return roundedRectangle(
    [guard.front + length * 0.19, low],
    [guard.rear - Math.max(length * 0.19, behind), high],
    9,
    5,
  );
}

/** One side: the plate, and in its window a clear pane held by a dark bead. */
function sheet({ outline, window }: Side, from: number, to: number, mesh = 'guard-hood'): Piece[] {
  const plate = { plane: 'side', from, to } as const;
  if (window === null) return [paint(prism({ ...plate, outline, chamfer: 0.8 }), mesh)];
  const middle = (from + to) / 2;
  const pane = prism({ plane: 'side', outline: window, from: middle - 1, to: middle + 1 });
  const grown = grow(window, 4);
  return [
    paint(prism({ ...plate, outline, holes: [window], chamfer: 0.8 }), mesh),
    ...[from - 0.9, to].map((z) =>
      paint(
        prism({ plane: 'side', outline: grown, holes: [grow(window, -2)], from: z, to: z + 0.9 }),
        mesh,
        COLOURS.rubber,
      ),
    ),
    {
      surface: 'stain',
      colour: '#e6eef0',
      solid: pane,
      mesh: 'guard-window',
      alphas: Array.from({ length: pane.positions.length / 3 }, () => 0.16),
    },
  ];
}

/** The same outline further out on every side of its middle. */
function grow(outline: readonly Point[], by: number): Point[] {
  const mean = (axis: 'x' | 'y') => outline.reduce((sum, p) => sum + p[axis], 0) / outline.length;
  const [x, y] = [mean('x'), mean('y')];
  return outline.map((p) => ({
    x: p.x + Math.sign(p.x - x) * by,
    y: p.y + Math.sign(p.y - y) * by,
  }));
}

/** The flap in the fence side on its hinge, with the knob that holds it: shut, or swung up. */
function flap(
  guard: Guard,
  layout: Layout,
  outline: readonly Point[],
  hinge: number,
  flapTurn: number,
): Piece[] {
  const { hoodHalf: half, hoodRim: rim } = layout;
  const end = guard.rear - BEHIND_FLAP - 1;
  const leaf = cutOutline(cutOutline(outline, 'y', 'below', hinge - 1), 'x', 'below', end);
  const xs = leaf.filter(({ y }) => y > hinge - 1.5).map(({ x }) => x);
  const [x0, x1] = [Math.min(...xs), Math.max(...xs)];
  const knob = turned(
    [(x0 + x1) / 2, rim + 9, half],
    [0, 0, 1],
    [
      [0, 4],
      [6, 4],
      [8, 8],
      [15, 9],
      [17, 6],
      [17, 0],
    ],
    { segments: 18 },
  );
  const turn = turnAbout('x', -flapTurn);
  const swing = (piece: Piece): Piece => {
    const local = movedSolid(piece.solid, (v) => v, [0, -hinge, -half]);
    const turnedUp = movedSolid({ ...local, normals: piece.solid.normals }, turn, [0, hinge, half]);
    return {
      ...piece,
      solid: { ...turnedUp, normals: movedSolid(piece.solid, turn).normals },
    };
  };
  const knuckles = Array.from({ length: 5 }, (_, i) => {
    const step = (x1 - x0) / 5;
    return bar(
      [x0 + i * step + 1, hinge, half + 1],
      [x0 + (i + 1) * step - 1, hinge, half + 1],
      3.6,
      10,
    );
  });
  const window = windowIn(guard, rim + 15, hinge - 13, BEHIND_FLAP + 40);
  return [
    ...[
      ...sheet({ outline: leaf, window }, half - SHEET, half, 'guard-flap'),
      bolt(knob, COLOURS.blackSteel),
    ].map(swing),
    ...knuckles.map((solid) => bolt(solid)),
  ];
}

/** The sheet over the top, from the nose to the tail, seen from outside and from within. */
function roofStrip(outline: readonly Point[], rear: number, half: number): Solid {
  const solid = emptySolid();
  const tail = outline.findIndex(({ x }) => x === rear);
  const over = [...outline.slice(tail), outline[0] as Point];
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

/** Which way the blade turns, raised on both sides of the hood: over the top toward the operator. */
function turnArrow(guard: Guard, { hoodHalf, hoodRim, hoodDepth }: Layout): Piece[] {
  const middle = (guard.front + guard.rear) / 2;
  const small = guard.window === true || hasFlap(guard);
  const y = hoodRim + hoodDepth * (small ? 0.85 : 0.62);
  const size = Math.min(small ? 34 : 46, (guard.rear - guard.front) * 0.12);
  const thick = small ? 0.22 : 0.34;
  const arrow: Point[] = [
    { x: middle - size, y },
    { x: middle - size * 0.4, y: y + size * thick },
    { x: middle - size * 0.4, y: y + size * thick * 0.38 },
    { x: middle + size, y: y + size * thick * 0.38 },
    { x: middle + size, y: y - size * thick * 0.38 },
    { x: middle - size * 0.4, y: y - size * thick * 0.38 },
    { x: middle - size * 0.4, y: y - size * thick },
  ];
  return [hoodHalf, -hoodHalf - 0.8].map((z) =>
    paint(
      prism({ plane: 'side', outline: arrow, from: z, to: z + 0.8 }),
      undefined,
      COLOURS.hoodDark,
    ),
  );
}

/** Streaks where boards and hands have rubbed the paint off both sides, beside the arrow. */
function scuffs(guard: Guard, { hoodHalf, hoodRim, hoodDepth }: Layout): Piece[] {
  const long = guard.rear - guard.front;
  return [0, 1, 2, 3].flatMap((i) => {
    const x = (guard.front + guard.rear) / 2 + long * (0.12 + 0.03 * (i % 2));
    const y = hoodRim + hoodDepth * (0.76 + 0.04 * i);
    const end = x + long * (0.1 - 0.02 * i);
    const outline: Point[] = [
      { x, y },
      { x: (x + end) / 2, y: y - 1 },
      { x: end, y: y + 2.5 },
      { x: (x + end) / 2, y: y + 2.5 },
    ];
    return [hoodHalf, -hoodHalf - 0.3].map((z) =>
      paint(prism({ plane: 'side', outline, from: z, to: z + 0.3 }), undefined, COLOURS.hoodDark),
    );
  });
}

/** Plates that hang below the rim on both sides, when the guard has them. */
export function sidePlates(guard: Guard, layout: Layout): Piece[] {
  if (guard.sideDepth <= 0) return [];
  const { hoodHalf: half, hoodRim: rim } = layout;
  const bottom = rim - guard.sideDepth;
  const outline = roundedRectangle([guard.front + 24, bottom], [guard.rear - 14, rim + 16], 10);
  // a flap swung up takes its plate with it
  const sides = hasFlap(guard) && guard.flap === 'up' ? [-half - 2] : [half, -half - 2];
  return sides.flatMap((z) => [
    {
      surface: 'steel' as const,
      colour: COLOURS.groundSteel,
      solid: prism({ plane: 'side', outline, from: z, to: z + 2, chamfer: 0.5 }),
      mesh: 'guard-side-plates',
    },
    ...[guard.front + 60, guard.rear - 60].map((x) =>
      bolt(
        hexagon([x, rim + 8, z > 0 ? half + 2 : -half - 2], [0, 0, Math.sign(z)], 10, 5),
        COLOURS.blackSteel,
      ),
    ),
  ]);
}
