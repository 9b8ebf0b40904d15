import type { Bench } from '../../bench/index.ts';
import type { Point } from '../../geometry/index.ts';
import { box } from '../shape/box.ts';
import type { Piece } from '../shape/pieces.ts';
import { prism } from '../shape/prism.ts';
import { addQuad, emptySolid, type Solid, type Vec } from '../shape/solid.ts';
import { roundedPath, sweep } from '../shape/sweep.ts';
import { hexagon, turned } from '../shape/turned.ts';
import { COLOURS } from '../surface/colours.ts';
import { collarRadius } from './arbor.ts';
import { layoutOf } from './layout.ts';

/** What keeps hands off the blade under the table, about the arbor axis. */
export function underGuardPieces(bench: Bench): Piece[] {
  const kind = bench.underGuard;
  if (kind === 'none') return [];
  const { tipRadius, depth, floor } = layoutOf(bench);
  const half = kind === 'side-plates' ? 38 : Math.max(30, bench.blade.plate / 2 + 40);
  const outline = casing(tipRadius + (kind === 'side-plates' ? 46 : 9), depth);
  const hub = hubHole(collarRadius(bench) + 8);
  const sheet = (solid: Solid): Piece => ({ surface: 'enamel', colour: COLOURS.machine, solid });
  const plates = [
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
    ...plates,
    ...rim,
    ...latches,
    ...(kind === 'extraction-hood' ? spout(tipRadius, depth, floor) : []),
  ];
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
function spout(tipRadius: number, depth: number, floor: number): Piece[] {
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
    { surface: 'enamel', colour: COLOURS.rubber, solid: sweep(path, 52, 18) },
  ];
}
