import { type Bench, collarRadius } from '../../bench/index.ts';
import type { Point } from '../../geometry/index.ts';
import { box } from '../shape/box.ts';
import type { Piece } from '../shape/pieces.ts';
import { prism } from '../shape/prism.ts';
import { addQuad, emptySolid, type Solid, type Vec } from '../shape/solid.ts';
import { roundedPath, sweep } from '../shape/sweep.ts';
import { hexagon, turned } from '../shape/turned.ts';
import { COLOURS } from '../surface/colours.ts';
import { seededRandom } from '../surface/noise.ts';
import { layoutOf } from './layout.ts';

/** What keeps hands off the blade under the table, about the arbor axis. */
export function underGuardPieces(bench: Bench): Piece[] {
  const kind = bench.underGuard;
  if (kind === 'none') return packedChips(bench);
  const { tipRadius, depth, floor } = layoutOf(bench);
  const plates = kind === 'side-plates' ? bench.underPlates : undefined;
  const half =
    kind === 'side-plates'
      ? Math.max(6, (plates?.apart ?? 76) / 2)
      : Math.max(30, bench.blade.plate / 2 + 40);
  const outline = casing(tipRadius + (kind === 'side-plates' ? (plates?.beyond ?? 46) : 9), depth);
  const hub = hubHole(collarRadius(bench) + 8);
  const sheet = (solid: Solid): Piece => ({ surface: 'enamel', colour: COLOURS.machine, solid });
  const sides = [
    sheet(
      prism({
        plane: 'side',
        outline,
        holes: kind === 'side-plates' ? [hub] : [],
        from: -half - 2,
        to: -half,
        chamfer: 0.5,
      }),
    ),
    sheet(prism({ plane: 'side', outline, holes: [hub], from: half, to: half + 2, chamfer: 0.5 })),
  ];
  const rim = kind === 'side-plates' ? spacers(outline, half) : [sheet(rimStrip(outline, half))];
  const latches = [-0.7, -2.4].map((angle): Piece => {
    const r = tipRadius * 0.8;
    return {
      surface: 'steel',
      colour: COLOURS.blackSteel,
      solid: hexagon([r * Math.cos(angle), r * Math.sin(angle), -half - 2], [0, 0, -1], 17, 8),
    };
  });
  return [
    ...sides,
    ...rim,
    ...latches,
    ...packedChips(bench),
    ...(kind === 'extraction-hood'
      ? spout(tipRadius, depth, floor, bench.extraction === undefined ? 'hose' : 'open')
      : []),
  ];
}

/** Chips packed into the mouth on both sides of the blade, splinters sticking out of them; about the arbor axis. */
function packedChips(bench: Bench): Piece[] {
  if (!bench.underPacked) return [];
  const { halfAtTable, depth } = layoutOf(bench);
  const random = seededRandom(23);
  const near = bench.blade.kerf / 2 + 0.6;
  const steps = 22;
  const dust = (solid: Solid): Piece => ({
    surface: 'timber',
    colour: COLOURS.dust,
    solid,
    mesh: 'under-chips',
  });
  const lump = (side: number): Piece[] => {
    const hang = Array.from({ length: steps + 1 }, (_, i) => {
      const share = i / steps;
      const deep = 22 + 58 * Math.sin(Math.PI * share) ** 0.6 * (0.55 + 0.45 * random());
      return { x: (share - 0.5) * 1.7 * halfAtTable, y: depth - 11 - deep };
    });
    const outline = [
      ...hang,
      { x: 0.85 * halfAtTable, y: depth - 11 },
      { x: -0.85 * halfAtTable, y: depth - 11 },
    ];
    const layers = [near, near + 12, near + 26];
    return layers.slice(1).map((far, k) =>
      dust(
        prism({
          plane: 'side',
          outline:
            k === 0
              ? outline
              : outline.map(({ x, y }) => ({ x: x * 0.9, y: y * 0.5 + (depth - 11) * 0.5 })),
          from: side * (layers[k] as number),
          to: side * far,
        }),
      ),
    );
  };
  const splinter = (): Piece => {
    const x = (random() - 0.5) * 1.5 * halfAtTable;
    const y = depth - 26 - 40 * random();
    const z = (random() < 0.5 ? -1 : 1) * (near + 8 + 14 * random());
    const [a, b] = [10 + 26 * random(), 2 + 3 * random()];
    return dust(box([x - a, y - b, z - b], [x + a, y + b, z + b]));
  };
  return [...lump(1), ...lump(-1), ...Array.from({ length: 26 }, splinter)];
}

/** The arc below the table, closed across just under it. */
function casing(radius: number, depth: number): Point[] {
  const top = depth - 47;
  const start = Math.PI - Math.asin(Math.min(0.98, top / radius));
  const end = 2 * Math.PI + (Math.PI - start);
  return Array.from({ length: 41 }, (_, i) => {
    const angle = start + ((end - start) * i) / 40;
    return { x: radius * Math.cos(angle), y: radius * Math.sin(angle) };
  });
}

const hubHole = (radius: number): Point[] =>
  Array.from({ length: 24 }, (_, i) => {
    const angle = (i * Math.PI) / 12;
    return { x: radius * Math.cos(angle), y: radius * Math.sin(angle) };
  });

/** The casing's rim, its inner face left out: it is only seen from outside. */
function rimStrip(outline: readonly Point[], half: number): Solid {
  const solid = emptySolid();
  for (let i = 0; i + 1 < outline.length; i++) {
    const [a, b] = [outline[i], outline[i + 1]] as [Point, Point];
    const at = (p: Point, z: number): Vec => [p.x, p.y, z];
    const out = (p: Point): Vec => {
      const r = Math.hypot(p.x, p.y);
      return [p.x / r, p.y / r, 0];
    };
    addQuad(
      solid,
      [at(a, -half), at(b, -half), at(b, half), at(a, half)],
      [out(a), out(b), out(b), out(a)],
    );
    addQuad(solid, [at(a, half), at(b, half), at(b, -half), at(a, -half)]);
  }
  return solid;
}

/** Distance bolts that hold two side plates apart. */
function spacers(outline: readonly Point[], half: number): Piece[] {
  return [6, 20, 34].map((i) => {
    const p = outline[i] as Point;
    return {
      surface: 'steel' as const,
      colour: COLOURS.groundSteel,
      solid: box(
        [p.x * 0.93 - 6, p.y * 0.93 - 6, -half],
        [p.x * 0.93 + 6, p.y * 0.93 + 6, half],
        2,
      ),
    };
  });
}

/** The outlet at the bottom and the hose to the extraction main. */
function spout(tipRadius: number, depth: number, floor: number, end: 'hose' | 'open'): Piece[] {
  const at: Vec = [-tipRadius * 0.35, -tipRadius - 2, 0];
  const outlet = turned(
    at,
    [0, -1, 0],
    [
      [-14, 30],
      [-14, 52],
      [0, 58],
      [60, 58],
      [60, 50],
    ],
    { segments: 28 },
  );
  const bottom = floor + depth;
  const path = roundedPath(
    [
      [at[0], at[1] - 50, 0],
      [at[0], Math.max(bottom + 130, at[1] - 190), 0],
      [at[0] - 60, bottom + 80, -380],
      [at[0] - 60, bottom + 80, -1500],
    ],
    130,
    8,
  );
  return [
    { surface: 'enamel', colour: COLOURS.machine, solid: outlet },
    // where it is known what draws the dust, its own hose comes here
    ...(end === 'open'
      ? []
      : [{ surface: 'enamel' as const, colour: COLOURS.rubber, solid: sweep(path, 52, 18) }]),
  ];
}
