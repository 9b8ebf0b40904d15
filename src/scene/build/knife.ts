import { type Bench, type Knife, knifeOutline, WORN } from '../../bench/index.ts';
import { distance, type Point } from '../../geometry/index.ts';
import { box } from '../shape/box.ts';
import { roundedRectangle } from '../shape/outlines.ts';
import type { Piece } from '../shape/pieces.ts';
import { prism, triangulate } from '../shape/prism.ts';
import { addQuad, addTriangle, emptySolid, type Solid, type Vec } from '../shape/solid.ts';
import { ball, bar, hexagon, turned } from '../shape/turned.ts';
import { COLOURS } from '../surface/colours.ts';

/** The riving knife and what holds it, in the blade plane of the bench frame. */
export function knifePieces(bench: Bench): Piece[] {
  const { knife, arbor } = bench;
  if (knife === null) return emptyBracket(bench);
  const shape = knifeOutline(knife, arbor.depth);
  const centre = { x: knife.along, y: knife.up - arbor.depth };
  return [
    {
      surface: 'steel',
      colour: COLOURS.knifeSteel,
      solid: bentOver(knife, knifePlate(knife, shape.outline, shape.slot, centre)),
      mesh: 'knife-plate',
      grain: 'y',
    },
    ...bracket(bench, shape.foot),
    ...clampLever(knife, shape.foot),
  ];
}

/** mm a bent knife's tip leans over. */
const BEND = 5;

/** Bent over to one side, more and more from the table to the tip. */
function bentOver(knife: Knife, solid: Solid): Solid {
  if (knife.condition !== 'bent') return solid;
  const { positions } = solid;
  const high = positions.reduce((top, y, i) => (i % 3 === 1 ? Math.max(top, y) : top), 1);
  return {
    ...solid,
    positions: positions.map((value, i) => {
      if (i % 3 !== 2) return value;
      const share = Math.max(0, (positions[i - 1] as number) / high);
      return value + BEND * share * share;
    }),
  };
}

/** Whether a point of the outline lies on the leading edge, worn or not. */
const leads = (knife: Knife, p: Point, centre: Point): boolean => {
  const off = distance(p, centre) - knife.edgeRadius;
  return (
    off > -1e-6 &&
    off < (knife.condition === 'worn' ? WORN.hollow + WORN.nick + 0.1 : 1e-6) &&
    p.y >= centre.y - 1e-6
  );
};

/** The taper ground on the leading edge: how far it runs in, mm, and the share of thickness left. */
const TAPER = { width: 9, left: 0.34 };

/**
 * The outline to its thickness, set over by its lateral offset, with both sides of the leading edge
 * ground back so that it enters the kerf easily.
 */
function knifePlate(
  knife: Knife,
  outline: readonly Point[],
  slot: readonly Point[],
  centre: Point,
): Solid {
  const solid = emptySolid();
  const half = knife.thickness / 2;
  const edge = half * TAPER.left;
  const z = knife.lateral;
  const leading = outline.map((p) => leads(knife, p, centre));
  const width = Math.min(TAPER.width, knife.edgeRadius * 0.03 + 2);
  const flat = outline.map((p, i) => (leading[i] ? { x: p.x + width, y: p.y } : p));
  const hole = slot.toReversed();
  const all = [...flat, ...hole];
  const at = (p: Point, dz: number): Vec => [p.x, p.y, z + dz];
  for (const [i, j, k] of triangulate(flat, [hole])) {
    const [a, b, c] = [all[i], all[j], all[k]] as [Point, Point, Point];
    addTriangle(solid, [at(a, half), at(b, half), at(c, half)]);
    addTriangle(solid, [at(c, -half), at(b, -half), at(a, -half)]);
  }
  outline.forEach((a, i) => {
    const next = (i + 1) % outline.length;
    const b = outline[next] as Point;
    const [fa, fb] = [flat[i] as Point, flat[next] as Point];
    const [ha, hb] = [leading[i] ? edge : half, leading[next] ? edge : half];
    addQuad(solid, [at(a, -ha), at(b, -hb), at(b, hb), at(a, ha)]);
    if (!leading[i] && !leading[next]) return;
    addQuad(solid, [at(a, ha), at(b, hb), at(fb, half), at(fa, half)]);
    addQuad(solid, [at(fa, -half), at(fb, -half), at(b, -hb), at(a, -ha)]);
  });
  hole.forEach((a, i) => {
    const b = hole[(i + 1) % hole.length] as Point;
    addQuad(solid, [at(a, -half), at(b, -half), at(b, half), at(a, half)]);
  });
  return solid;
}

/** The arm from the arbor housing, the frame or the table, and the two jaws that grip the foot. */
function bracket(bench: Bench, foot: Point): Piece[] {
  const knife = bench.knife as Knife;
  const jaw = roundedRectangle([foot.x - 21, foot.y - 30], [foot.x + 21, foot.y + 27], 7);
  const face = knife.lateral + knife.thickness / 2;
  const back = knife.lateral - knife.thickness / 2;
  const cast = (solid: Solid): Piece => ({ surface: 'enamel', colour: COLOURS.machineDark, solid });
  return [
    ...holdingArm(bench, foot).map(cast),
    cast(prism({ plane: 'side', outline: jaw, from: face, to: face + 22, chamfer: 2 })),
    {
      surface: 'iron',
      colour: COLOURS.ironEdge,
      solid: prism({ plane: 'side', outline: jaw, from: back - 9, to: back, chamfer: 1.5 }),
    },
  ];
}

function holdingArm(bench: Bench, foot: Point): Solid[] {
  const carried = bench.knife?.carriedBy ?? 'arbor';
  const depth = bench.arbor.depth;
  if (carried === 'table') {
    return [
      box([foot.x + 10, -62, 14], [foot.x + 46, -44, 74], 2),
      box([foot.x - 20, -62, 14], [foot.x + 46, foot.y - 20, 34], 3),
    ];
  }
  const end = carried === 'arbor' ? { x: 0, y: -depth } : { x: 60, y: -depth - 300 };
  const along = Math.hypot(foot.x - end.x, foot.y - end.y) || 1;
  const [ux, uy] = [(foot.x - end.x) / along, (foot.y - end.y) / along];
  const ends = [
    [end.x, end.y, 34],
    [foot.x, foot.y, 19],
  ] as const;
  const outline = [
    ...ends.map(([x, y, w]) => ({ x: x - uy * w, y: y + ux * w })),
    ...ends.toReversed().map(([x, y, w]) => ({ x: x + uy * w + ux * 6, y: y - ux * w + uy * 6 })),
  ];
  return [prism({ plane: 'side', outline, from: 24, to: 42, chamfer: 3 })];
}

/** Hand lever of the knife's clamp: along the knife when tight, hanging when slack. */
function clampLever(knife: Knife, foot: Point): Piece[] {
  const back = knife.lateral - knife.thickness / 2 - 9;
  const angle = ((knife.locked ? -14 : -112) * Math.PI) / 180;
  const slack = knife.locked ? 0 : 4;
  const hub: Vec = [foot.x, foot.y, back - slack];
  const end: Vec = [
    foot.x + 92 * Math.cos(angle),
    foot.y + 92 * Math.sin(angle),
    back - 34 - slack,
  ];
  return [
    {
      surface: 'steel',
      colour: COLOURS.groundSteel,
      solid: bar([foot.x, foot.y, back - 14], [foot.x, foot.y, 50], 6),
    },
    {
      surface: 'steel',
      colour: COLOURS.groundSteel,
      solid: turned(
        hub,
        [0, 0, -1],
        [
          [0, 0],
          [0, 15],
          [4, 15],
          [4, 0],
        ],
      ),
    },
    {
      surface: 'steel',
      colour: COLOURS.blackSteel,
      solid: turned(
        [hub[0], hub[1], hub[2] - 4],
        [0, 0, -1],
        [
          [0, 0],
          [0, 13],
          [18, 11],
          [22, 7],
          [22, 0],
        ],
      ),
    },
    {
      surface: 'steel',
      colour: COLOURS.brightSteel,
      solid: bar([hub[0], hub[1], hub[2] - 13], end, 5),
    },
    { surface: 'enamel', colour: COLOURS.bakelite, solid: ball(end, 13) },
    {
      surface: 'steel',
      colour: COLOURS.blackSteel,
      solid: hexagon([foot.x, foot.y, 42], [0, 0, 1], 19, 10),
    },
  ];
}

/** With the knife off, its arm and slack jaw are left, so that it can be seen to be missing. */
function emptyBracket(bench: Bench): Piece[] {
  const radius = bench.blade.diameter / 2 + 18;
  const foot = { x: Math.sqrt(Math.max(0, radius ** 2 - (bench.arbor.depth - 48) ** 2)), y: -48 };
  const jaw = roundedRectangle([foot.x - 21, foot.y - 30], [foot.x + 21, foot.y + 27], 7);
  return [
    ...holdingArm(bench, foot).map(
      (solid): Piece => ({ surface: 'enamel', colour: COLOURS.machineDark, solid }),
    ),
    {
      surface: 'enamel',
      colour: COLOURS.machineDark,
      solid: prism({ plane: 'side', outline: jaw, from: 3, to: 24, chamfer: 2 }),
    },
    {
      surface: 'steel',
      colour: COLOURS.groundSteel,
      solid: bar([foot.x, foot.y, -20], [foot.x, foot.y, 30], 6),
    },
  ];
}
