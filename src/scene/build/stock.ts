import type { Bench } from '../../bench/index.ts';
import { box } from '../shape/box.ts';
import { circle } from '../shape/outlines.ts';
import type { Piece } from '../shape/pieces.ts';
import { prism } from '../shape/prism.ts';
import { emptySolid, type Solid, type Vec } from '../shape/solid.ts';
import { bar } from '../shape/turned.ts';
import { COLOURS } from '../surface/colours.ts';
import { layoutOf } from './layout.ts';

export const SPECIES: Record<string, { long: string; end: string }> = {
  softwood: { long: '#d9ccb3', end: '#c9b494' },
  hardwood: { long: '#a88664', end: '#937150' },
  sheet: { long: '#c9bba4', end: '#af9d84' },
};

type Size = { readonly from: Vec; readonly to: Vec; readonly crosswise: boolean };

/** Where the stock lies: ready in front of the blade, against the fence, or across for a crosscut. */
export function stockBox(bench: Bench): Size {
  const layout = layoutOf(bench);
  const { stock, cut, widthOfCut } = bench.job;
  const lead = layout.ready;
  if (cut === 'crosscut') {
    // the fence is drawn back for a crosscut, or the board would lie across it
    const right = Math.min(bench.blade.kerf / 2 + widthOfCut, layout.fenceFace - 2);
    return {
      from: [lead - stock.width, 0, right - stock.length],
      to: [lead, stock.thickness, right],
      crosswise: true,
    };
  }
  const right = layout.fenceFace;
  return {
    from: [lead - stock.length, 0, right - stock.width],
    to: [lead, stock.thickness, right],
    crosswise: false,
  };
}

/** The board with its long grain, its end grain, and the pencil line of the cut. */
export function stockPieces(bench: Bench): Piece[] {
  const { from, to, crosswise } = stockBox(bench);
  return [
    ...boardPieces(bench, box(from, to, Math.min(0.8, bench.job.stock.thickness / 8))),
    ...knots(bench, from, to, crosswise),
    ...cutLine(bench, from, to, crosswise),
    ...infeedStand(bench, from, to),
  ];
}

/** Knots in the top face: brown, grown in close; a loose one has a dark gap round it. */
function knots(bench: Bench, from: Vec, to: Vec, crosswise: boolean): Piece[] {
  const { tightKnots, looseKnots, thickness } = bench.job.stock;
  if (tightKnots !== true && looseKnots !== true) return [];
  const top = from[1] + thickness;
  const spots = [
    [0.93, 0.3, 1],
    [0.8, 0.66, 0.7],
    [0.62, 0.4, 0.9],
  ] as const;
  return spots.flatMap(([along, across, size], i) => {
    const [u, v] = crosswise ? [across, along] : [along, across];
    const x = from[0] + (to[0] - from[0]) * u;
    const z = from[2] + (to[2] - from[2]) * v;
    const radius = 13 * size;
    const loose = looseKnots === true && (tightKnots !== true || i !== 1);
    const disc = (r: number, up: number, colour: string): Piece => ({
      surface: 'timber',
      colour,
      grain: crosswise ? 'z' : 'x',
      solid: prism({ plane: 'plan', outline: circle(z, x, r, 18), from: top - 0.05, to: top + up }),
      mesh: 'stock-board',
    });
    return [disc(radius + 1.6, 0.02, loose ? '#1d140d' : '#a98254'), disc(radius, 0.04, '#7d5330')];
  });
}

/** Any shape sawn from the stock, standing where the stock stands ready: long grain and end grain. */
export function boardPieces(bench: Bench, solid: Solid): Piece[] {
  const { from, crosswise } = stockBox(bench);
  const species =
    SPECIES[bench.job.stock.kind] ?? (SPECIES.softwood as { long: string; end: string });
  const split = splitEnds(solid, crosswise ? 2 : 0);
  return [
    {
      surface: 'timber',
      colour: species.long,
      solid: split.long,
      grain: crosswise ? 'z' : 'x',
      mesh: 'stock-board',
    },
    {
      surface: 'end-grain',
      colour: species.end,
      solid: endUvs(split.ends, from, crosswise),
      mesh: 'stock-ends',
    },
  ];
}

/** The faces square to the grain apart from the rest. */
function splitEnds(solid: Solid, axis: 0 | 2): { long: Solid; ends: Solid } {
  const long = emptySolid();
  const ends = emptySolid();
  for (let i = 0; i < solid.positions.length; i += 9) {
    const target = Math.abs(solid.normals[i + axis] as number) > 0.9 ? ends : long;
    target.positions.push(...solid.positions.slice(i, i + 9));
    target.normals.push(...solid.normals.slice(i, i + 9));
  }
  return { long, ends };
}

/** Rings run true across the end whatever its size: 256 mm of texture from the board's own corner. */
function endUvs(ends: Solid, from: Vec, crosswise: boolean): Solid {
  const uvs: number[] = [];
  for (let i = 0; i < ends.positions.length; i += 3) {
    const across = (ends.positions[i + (crosswise ? 0 : 2)] as number) - from[crosswise ? 0 : 2];
    uvs.push(across / 256, ((ends.positions[i + 1] as number) - from[1]) / 256);
  }
  return { ...ends, uvs };
}

/** Pencil on the top face: where the kerf is meant to go, at the width asked for. */
export function cutLine(
  bench: Bench,
  from: Vec,
  to: Vec,
  crosswise: boolean,
  edge = Number.NEGATIVE_INFINITY,
): Piece[] {
  const { widthOfCut, cut } = bench.job;
  const wide = 0.9;
  const top = to[1] + 0.03;
  const z = to[2] - widthOfCut;
  if (cut === 'rebate' || cut === 'groove' || z <= from[2] || z >= to[2]) return [];
  // sawn, only what lies on the piece that is kept is left of it
  if (z + wide / 2 <= edge) return [];
  const x0 = crosswise ? from[0] : Math.max(from[0], to[0] - 1400);
  return [
    {
      surface: 'mark',
      colour: '#5d5648',
      solid: box([x0, top - 0.02, Math.max(edge, z - wide / 2)], [to[0] - 0.5, top, z + wide / 2]),
      mesh: 'stock-line',
    },
  ];
}

/** A roller stand where the work would otherwise hang off the operator's end of the table. */
function infeedStand(bench: Bench, from: Vec, to: Vec): Piece[] {
  const layout = layoutOf(bench);
  const middle = (from[0] + to[0]) / 2;
  if (middle > layout.tableFront - 20 || bench.job.cut === 'crosscut') return [];
  const x = Math.max(from[0] + 220, middle - (to[0] - from[0]) * 0.2);
  const z = (from[2] + to[2]) / 2;
  const half = Math.max(190, (to[2] - from[2]) / 2 + 50);
  const { floor } = layout;
  const paint = (solid: Solid): Piece => ({
    surface: 'enamel',
    colour: COLOURS.machineDark,
    solid,
  });
  return [
    {
      surface: 'steel',
      colour: COLOURS.groundSteel,
      solid: bar([x, -29, z - half], [x, -29, z + half], 29, 28),
    },
    ...[-1, 1].flatMap((side) => [
      paint(
        box([x - 18, -70, z + side * (half + 4) - 4], [x + 18, -10, z + side * (half + 4) + 4], 2),
      ),
      paint(
        box(
          [x - 14, floor + 30, z + side * (half - 20) - 14],
          [x + 14, -70, z + side * (half - 20) + 14],
          2,
        ),
      ),
      paint(
        box(
          [x - 240, floor + 2, z + side * (half - 20) - 18],
          [x + 240, floor + 32, z + side * (half - 20) + 18],
          4,
        ),
      ),
    ]),
    paint(box([x - 16, -86, z - half - 8], [x + 16, -62, z + half + 8], 3)),
    paint(box([x - 12, floor + 190, z - half + 20], [x + 12, floor + 216, z + half - 20], 3)),
  ];
}
